import type { AmendmentDocument, Diagnostic } from '@dwellset/authoring';
import { useSignal } from '@preact/signals';
import { ask, opened } from '../../bench/client.ts';
import type { VignettesDocument } from '../../draft/draft.ts';
import { editDraft } from '../../draft/edit.ts';
import { fromAmendment } from '../../draft/fromAmendment.ts';
import { textOfFile } from '../../files/save.ts';
import { Problems } from '../../parts/Problems.tsx';
import { setInView } from '../../route.ts';

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Enough of an amendment to be taken apart; a reason may still be empty, nothing else may be missing. */
function isAmendment(value: unknown): value is AmendmentDocument {
  if (!isRecord(value) || !Array.isArray(value.amends)) return false;
  const texts = ['id', 'version', 'organisation', 'approverRole', 'date'];
  return (
    texts.every((key) => typeof value[key] === 'string') &&
    value.amends.every(
      (entry) =>
        isRecord(entry) &&
        typeof entry.set === 'string' &&
        Array.isArray(entry.changes) &&
        entry.changes.every(isRecord),
    )
  );
}

const isVignettes = (value: unknown): value is VignettesDocument =>
  isRecord(value) && isRecord(value.base) && Array.isArray(value.vignettes);

/** What the check says only because something is still to be stated. */
const UNFINISHED = new Set(['empty-text', 'wrong-shape', 'bad-format', 'wrong-value']);

/** Opens an amendment or a file of patients: picked, dropped, or one of the examples. */
export function Import() {
  const all = opened.value!;
  const said = useSignal('');
  const found = useSignal<readonly Diagnostic[]>([]);
  const take = async (text: string): Promise<void> => {
    found.value = [];
    let value: unknown;
    try {
      value = JSON.parse(text);
    } catch {
      found.value = await ask('checkAmendment', { text });
      said.value = 'This is no readable JSON; nothing was taken.';
      return;
    }
    if (isVignettes(value)) {
      const set = setInView.peek();
      const own = value;
      editDraft(all, 'take patients', (before) => ({ ...before, own: { ...before.own, [set]: own } }));
      said.value = `${own.vignettes.length} patients stand first in the ledger of ${all.sets.find(({ id }) => id === set)?.release.title}.`;
      return;
    }
    const problems = await ask('checkAmendment', { text });
    const grave = problems.filter(({ severity, code }) => severity === 'error' && !UNFINISHED.has(code));
    if (
      !isAmendment(value) ||
      grave.some(({ code }) => code === 'broken-json' || code === 'forbidden-key' || code === 'duplicate-key')
    ) {
      found.value = problems;
      said.value = 'This is no amendment that can be opened; nothing was taken.';
      return;
    }
    const amendment = value;
    try {
      editDraft(all, 'open an amendment', (before) => ({
        ...fromAmendment(amendment, all.sets),
        own: before.own,
      }));
    } catch {
      found.value = problems;
      said.value = 'This amendment cannot be read; nothing was taken.';
      return;
    }
    found.value = problems;
    said.value = `Opened: ${amendment.organisation || amendment.id}. Undo brings back what stood here before.`;
  };
  const pick = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    const read = await textOfFile(file);
    if ('refused' in read) said.value = read.refused;
    else await take(read.text);
  };
  return (
    <section
      class="section"
      aria-labelledby="open"
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault();
        void pick(event.dataTransfer?.files[0]);
      }}
    >
      <h2 id="open">Open</h2>
      <div class="tools">
        <label>
          <span>An amendment or a file of patients (or drop it here)</span>
          <input
            type="file"
            accept=".json,application/json"
            onInput={(event) => void pick(event.currentTarget.files?.[0])}
          />
        </label>
        {all.amendments.map(({ hospital, name, text }) => (
          <button key={hospital} type="button" onClick={() => void take(text)}>
            Open the example of {name}
          </button>
        ))}
      </div>
      <p role="status">{said.value}</p>
      <Problems found={found.value} places />
    </section>
  );
}
