import type { AbsentReason, CaseValue, Fact, StatedValue } from '@dwellset/core';
import { causeWords, unitWords, upperFirst } from '@dwellset/wording';
import { useEffect, useState } from 'preact/hooks';
import { words } from '../../words.ts';
import { onTheClock, withOffset } from './zoned.ts';

interface Props {
  readonly fact: Fact;
  readonly value: CaseValue | undefined;
  readonly zone: string;
  readonly onValue: (value: CaseValue | undefined) => void;
}

const ABSENT: readonly AbsentReason[] = [
  'asked-unknown',
  'asked-declined',
  'not-applicable',
  'not-performed',
];
const NULL = 'null';

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isStated = (value: unknown): value is StatedValue => isObject(value) && 'value' in value;
const absentOf = (value: unknown): string | undefined =>
  value === null ? NULL : isObject(value) && 'absent' in value ? String(value.absent) : undefined;
const bareOf = (value: unknown): unknown => (isStated(value) ? value.value : value);

/** A value put in the place of another keeps the time and origin that were stated. */
const restated = (before: unknown, value: StatedValue['value'], unit?: string): CaseValue =>
  isStated(before) || (unit !== undefined && unit !== '1')
    ? { ...(isStated(before) ? before : {}), value, ...(unit !== undefined && { unit }) }
    : value;

/** Why there is no value: each is an answer of its own. */
const Absent = ({ value, label, onValue }: { value: string; label: string; onValue: Props['onValue'] }) => (
  <select
    class="absent"
    aria-label={`${label}: if there is no value`}
    value={value}
    onInput={(event) => onValue(readAbsent(event.currentTarget.value))}
  >
    <AbsentOptions none="or …" />
  </select>
);

const AbsentOptions = ({ none }: { none: string }) => (
  <>
    <option value="">{none}</option>
    <option value={NULL}>{causeWords('nothing-recorded')}</option>
    {ABSENT.map((reason) => (
      <option key={reason} value={reason}>
        {causeWords(reason)}
      </option>
    ))}
  </>
);

const readAbsent = (value: string): CaseValue | undefined =>
  value === '' ? undefined : value === NULL ? null : { absent: value as AbsentReason };

const NOBODY = 'not supplied';

/** One question of the dictionary with the answers that it can have. */
export function FactField(props: Props) {
  const { fact, value } = props;
  const stated = value !== undefined;
  return (
    <div class={stated ? 'fact answered' : 'fact'}>
      <p class="question" id={`q-${fact.id}`}>
        {fact.question}
      </p>
      <div class="answer">
        <Answer {...props} />
        {stated && absentOf(value) === undefined && fact.type !== 'list' && <Origin {...props} />}
      </div>
    </div>
  );
}

function Answer({ fact, value, zone, onValue }: Props) {
  const absent = absentOf(value);
  const bare = bareOf(value);
  const label = fact.question;
  const codes = words.value.codes[fact.codes ?? ''] ?? {};
  switch (fact.type) {
    case 'boolean':
    case 'code': {
      const options: readonly (readonly [string, string])[] =
        fact.type === 'boolean'
          ? [
              ['true', 'yes'],
              ['false', 'no'],
            ]
          : Object.entries(codes);
      const shown = absent ?? (value === undefined ? '' : String(bare));
      return (
        <select
          aria-labelledby={`q-${fact.id}`}
          value={shown}
          onInput={(event) => {
            const picked = event.currentTarget.value;
            if (options.some(([code]) => code === picked)) {
              onValue(restated(value, fact.type === 'boolean' ? picked === 'true' : picked));
            } else onValue(readAbsent(picked));
          }}
        >
          <AbsentOptions none={NOBODY} />
          <optgroup label="Answers">
            {options.map(([code, said]) => (
              <option key={code} value={code}>
                {said}
              </option>
            ))}
          </optgroup>
          {absent === undefined && value !== undefined && !options.some(([code]) => code === shown) && (
            <option value={shown}>{shown}</option>
          )}
        </select>
      );
    }
    case 'codes':
      return <CodesAnswer {...{ fact, value, zone, onValue }} />;
    case 'list':
      return <Entries {...{ fact, value, zone, onValue }} />;
    case 'date-time':
      return (
        <>
          <input
            type="datetime-local"
            aria-labelledby={`q-${fact.id}`}
            value={typeof bare === 'string' ? onTheClock(bare, zone) : ''}
            onInput={(event) => {
              const local = event.currentTarget.value;
              onValue(local === '' ? undefined : restated(value, withOffset(local, zone)));
            }}
          />{' '}
          <Absent value={absent ?? ''} label={label} onValue={onValue} />
        </>
      );
    default:
      return (
        <>
          <Typed {...{ fact, value, zone, onValue }} />{' '}
          <Absent value={absent ?? ''} label={label} onValue={onValue} />
        </>
      );
  }
}

/** A number, a date or a text; an empty field means that nobody supplied it. */
function Typed({ fact, value, onValue }: Props) {
  const bare = bareOf(value);
  const known = bare === undefined || bare === null || absentOf(value) !== undefined ? '' : String(bare);
  const [text, setText] = useState(known);
  const isNumber = fact.type === 'number';
  useEffect(() => {
    if (isNumber ? Number(text) !== Number(known) || (text === '') !== (known === '') : text !== known)
      setText(known);
  }, [known]);
  return (
    <span class="measured">
      <input
        {...((isNumber
          ? { type: 'number', step: fact.step ?? 'any' }
          : { type: fact.type === 'date' ? 'date' : 'text' }) as { type: 'text' })}
        aria-labelledby={`q-${fact.id}`}
        value={text}
        onInput={(event) => {
          const typed = event.currentTarget.value;
          setText(typed);
          if (typed === '') onValue(undefined);
          else if (!isNumber) onValue(restated(value, typed));
          else if (Number.isFinite(Number(typed))) onValue(restated(value, Number(typed), fact.unit));
        }}
      />{' '}
      {isNumber && <span class="unit">{unitWords(fact.unit, Number(text))}</span>}
    </span>
  );
}

/** A closed list: each may be said yes to, all may be said no to. */
function CodesAnswer({ fact, value, onValue }: Props) {
  const codes = words.value.codes[fact.codes ?? ''] ?? {};
  const all = Object.keys(codes);
  const bare = bareOf(value);
  const yes = Array.isArray(bare)
    ? (bare as string[])
    : isObject(bare)
      ? ((bare.yes as string[] | undefined) ?? [])
      : [];
  const no = isObject(bare) ? ((bare.no as string[] | undefined) ?? []) : [];
  const none = no.length === all.length && yes.length === 0;
  const absent = absentOf(value);
  const summary =
    value === undefined
      ? NOBODY
      : absent !== undefined
        ? causeWords(absent === NULL ? 'nothing-recorded' : (absent as AbsentReason))
        : none
          ? 'none of these'
          : yes.map((code) => codes[code] ?? code).join('; ') || 'nothing answered yes';
  const answer = (picked: readonly string[]) => {
    const rest = all.filter((code) => !picked.includes(code));
    // Ticking says yes; what is not ticked is a no only where the author has said so.
    const answers =
      no.length > 0 || none ? { yes: picked, no: rest.filter((code) => no.includes(code)) } : [...picked];
    onValue(picked.length === 0 && no.length === 0 ? undefined : restated(value, answers));
  };
  return (
    <details>
      <summary>{summary}</summary>
      <fieldset class="codes">
        <legend class="unseen">{fact.question}</legend>
        {all.map((code) => (
          <label key={code}>
            <input
              type="checkbox"
              checked={yes.includes(code)}
              onInput={(event) =>
                answer(all.filter((one) => (one === code ? event.currentTarget.checked : yes.includes(one))))
              }
            />{' '}
            {codes[code]}
          </label>
        ))}
      </fieldset>
      <p class="adding">
        <label>
          <input
            type="checkbox"
            checked={none}
            onInput={(event) =>
              onValue(event.currentTarget.checked ? restated(value, { yes: [], no: all }) : undefined)
            }
          />{' '}
          none of these
        </label>
        <label>
          <input
            type="checkbox"
            checked={!none && yes.length + no.length === all.length && all.length > 0}
            onInput={(event) =>
              onValue(
                restated(
                  value,
                  event.currentTarget.checked
                    ? { yes, no: all.filter((code) => !yes.includes(code)) }
                    : [...yes],
                ),
              )
            }
          />{' '}
          only the ticked ones
        </label>
        <Absent value={absent ?? ''} label={fact.question} onValue={onValue} />
      </p>
    </details>
  );
}

/** Charted entries, as they stand in a case file. */
function Entries({ fact, value, onValue }: Props) {
  const [text, setText] = useState(value === undefined ? '' : JSON.stringify(value, null, 1));
  const [wrong, setWrong] = useState(false);
  const fields = Object.entries(fact.item ?? {}).filter(([, { from }]) => !from);
  const said = fields
    .map(([name, { title, unit }]) => `${name} (${title}${unit === undefined ? '' : `, ${unit}`})`)
    .join(', ');
  return (
    <details>
      <summary>
        {Array.isArray(value) ? `${value.length} entries` : value === undefined ? NOBODY : 'stated'}
      </summary>
      <p class="aside" id={`about-${fact.id}`}>
        A list of entries with {said}. An empty list says that there are none.
      </p>
      <textarea
        class="json small"
        aria-labelledby={`q-${fact.id}`}
        aria-describedby={`about-${fact.id}`}
        aria-invalid={wrong}
        value={text}
        onInput={(event) => {
          const typed = event.currentTarget.value;
          setText(typed);
          try {
            onValue(typed.trim() === '' ? undefined : (JSON.parse(typed) as CaseValue));
            setWrong(false);
          } catch {
            setWrong(true);
          }
        }}
      />
      {wrong && <p class="aside">This cannot be read yet, so the entries read before still count.</p>}
    </details>
  );
}

/** When it was seen, where it comes from, how exact it is. */
function Origin({ fact, value, zone, onValue }: Props) {
  const stated: Partial<StatedValue> = isStated(value) ? value : {};
  const put = (part: Partial<Record<keyof StatedValue, unknown>>) => {
    const next = { ...stated, value: bareOf(value), ...part } as Record<string, unknown>;
    for (const [key, one] of Object.entries(next)) if (one === undefined || one === '') delete next[key];
    onValue(next as unknown as CaseValue);
  };
  return (
    <details class="origin">
      <summary>
        {stated.at || stated.from || stated.comparator ? 'Time and origin stated' : 'Time and origin'}
      </summary>
      <label>
        Seen at{' '}
        <input
          type="datetime-local"
          value={stated.at === undefined ? '' : onTheClock(stated.at, zone)}
          onInput={(event) =>
            put({
              at: event.currentTarget.value === '' ? undefined : withOffset(event.currentTarget.value, zone),
            })
          }
        />
      </label>{' '}
      <label>
        From{' '}
        <input
          type="text"
          value={stated.from ?? ''}
          onInput={(event) => put({ from: event.currentTarget.value })}
        />
      </label>{' '}
      {fact.type === 'number' && (
        <label>
          Exact{' '}
          <select
            value={stated.comparator ?? ''}
            onInput={(event) => put({ comparator: event.currentTarget.value })}
          >
            <option value="">exactly</option>
            <option value="&lt;">less than</option>
            <option value="&lt;=">at most</option>
            <option value="&gt;">more than</option>
            <option value="&gt;=">at least</option>
          </select>
        </label>
      )}{' '}
      {fact.usual && (
        <label>
          <input
            type="checkbox"
            checked={stated.confirmed === true}
            onInput={(event) => put({ confirmed: event.currentTarget.checked || undefined })}
          />{' '}
          {upperFirst('confirmed, however unusual')}
        </label>
      )}
    </details>
  );
}
