import type { Diagnostic } from '@dwellset/authoring';
import type { Case } from '@dwellset/core';
import { useState } from 'preact/hooks';
import { ask, opened } from '../../bench/client.ts';
import { LARGEST, save, textOfFile } from '../../files/save.ts';
import { Problems } from '../../parts/Problems.tsx';
import { patient, takenFrom } from './state.ts';

const shown = ({ ...stated }: Case): string =>
  JSON.stringify({ $schema: 'urn:dwellset:case:1', ...stated }, null, 2);

/** Whether it is enough of a case to be tried; what is wrong in it is listed beside. */
const isCase = (value: unknown): value is Case =>
  typeof value === 'object' &&
  value !== null &&
  typeof (value as Case).asOf === 'string' &&
  typeof (value as Case).timeZone === 'string' &&
  typeof (value as Case).facts === 'object' &&
  (value as Case).facts !== null;

/** The patient as a case file: pasted, dropped, picked, saved. */
export function CaseText() {
  const [typed, setTyped] = useState<string | undefined>();
  const [found, setFound] = useState<readonly Diagnostic[]>([]);
  const [refused, setRefused] = useState('');
  const take = async (text: string): Promise<void> => {
    setTyped(text);
    setRefused('');
    if (text.length > LARGEST) {
      setTyped(undefined);
      setFound([]);
      setRefused(`The text is larger than ${LARGEST} bytes and was not read.`);
      return;
    }
    const problems = await ask('checkCase', { text });
    setFound(problems);
    try {
      const value: unknown = JSON.parse(text);
      if (!isCase(value)) {
        setRefused('This is no case: it needs a moment, a time zone and facts.');
        return;
      }
      if (
        problems.some(({ code }) =>
          ['broken-json', 'too-large', 'too-deep', 'forbidden-key', 'duplicate-key'].includes(code),
        )
      )
        return;
      takenFrom.value = undefined;
      patient.value = value;
      setTyped(undefined);
    } catch {
      setRefused('The text cannot be read yet; the patient stays as before.');
    }
  };
  const pick = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    const read = await textOfFile(file);
    if ('refused' in read) setRefused(read.refused);
    else await take(read.text);
  };
  return (
    <details class="case-text">
      <summary>As a file</summary>
      <section
        aria-label="The patient as a file"
        onDragOver={(event) => event.preventDefault()}
        onDrop={(event) => {
          event.preventDefault();
          void pick(event.dataTransfer?.files[0]);
        }}
      >
        <p class="tools">
          <label>
            <span>Read a case file (or drop it here)</span>
            <input
              type="file"
              accept=".json,application/json"
              onInput={(event) => void pick(event.currentTarget.files?.[0])}
            />
          </label>
          <button type="button" onClick={() => save('patient.case.json', shown(patient.value))}>
            Save as a case file
          </button>
          {(opened.value?.cases ?? []).length > 0 && (
            <label>
              <span>Take an example</span>
              <select
                value=""
                onInput={(event) => {
                  const one = opened.value?.cases.find(({ name }) => name === event.currentTarget.value);
                  if (one) void take(one.text);
                }}
              >
                <option value="">…</option>
                {opened.value?.cases.map(({ name }) => (
                  <option key={name} value={name}>
                    {name.replaceAll('-', ' ')}
                  </option>
                ))}
              </select>
            </label>
          )}
        </p>
        <textarea
          class="json"
          aria-label="The case as JSON"
          spellcheck={false}
          value={typed ?? shown(patient.value)}
          onInput={(event) => void take(event.currentTarget.value)}
        />
        {refused !== '' && <p role="alert">{refused}</p>}
        <Problems found={found} places />
      </section>
    </details>
  );
}
