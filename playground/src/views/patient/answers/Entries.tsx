import type { CaseValue, Fact } from '@dwellset/core';
import { counted } from '@dwellset/wording';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { AbsentOptions } from './Absent.tsx';
import { Entry } from './Entry.tsx';
import { asValue, type Listed, listedOf, withField } from './listed.ts';
import { type AnswerProps, absentOf, NOBODY, readAbsent } from './values.ts';

type Props = Omit<AnswerProps, 'asked'> & { readonly fact: Fact };

const NONE = 'none';
const OPEN = 'open';
const UNREAD = 'unread';
/** Longer lists are folded until somebody wants to see them. */
const FOLDED_FROM = 4;

/** A list, such as earlier catheters: an entry a row, or why there is none. */
export function Entries({ fact, label, labelledBy, value, zone, onValue }: Props) {
  const listed: Listed = listedOf(value) ?? { items: [], open: false };
  const { items } = listed;
  const keys = useKeys(items.length);
  const [wished, setWished] = useState<boolean | undefined>();
  const unfolded = wished ?? items.length < FOLDED_FROM;
  const [said, setSaid] = useState('');
  const box = useRef<HTMLDivElement>(null);
  const focus = useRef<string | undefined>(undefined);
  useLayoutEffect(() => {
    if (focus.current === undefined) return;
    box.current?.querySelector<HTMLElement>(focus.current)?.focus();
    focus.current = undefined;
  });
  const toggle = ({ currentTarget: { open } }: { currentTarget: HTMLDetailsElement }) => {
    if (open !== unfolded) setWished(open);
  };
  const put = (next: Listed) => onValue(asValue(next));
  const add = () => {
    setWished(true);
    setSaid('');
    focus.current = `fieldset:nth-of-type(${items.length + 1}) :is(input, select)`;
    put({ ...listed, items: [...items, {}] });
  };
  const remove = (index: number) => {
    keys.splice(index, 1);
    const left = items.length - 1;
    setSaid(
      `Entry ${index + 1} removed, ${left === 0 ? 'no entry' : counted(left, 'entry', 'entries')} left.`,
    );
    focus.current =
      left === 0 ? '.adding button' : `fieldset:nth-of-type(${Math.min(index + 1, left)}) button.remove`;
    // That the last one was a mistake does not say that there was none.
    if (left === 0) onValue(undefined);
    else put({ ...listed, items: items.filter((_, at) => at !== index) });
  };
  return (
    <div class="entries" ref={box}>
      {items.length === 0 ? (
        <Without {...{ labelledBy, value, onValue }} />
      ) : (
        <details open={unfolded} onToggle={toggle}>
          <summary>{counted(items.length, 'entry', 'entries')}</summary>
          {items.map((item, index) => (
            <Entry
              key={keys[index]}
              fact={fact}
              item={item}
              number={index + 1}
              id={`${labelledBy}-${keys[index]}`}
              zone={zone}
              onField={(name, one) =>
                put({
                  ...listed,
                  items: items.map((all, at) => (at === index ? withField(all, name, one) : all)),
                })
              }
              onRemove={() => remove(index)}
            />
          ))}
        </details>
      )}
      <p class="adding">
        <button type="button" onClick={add} aria-label={`Add an entry: ${label}`}>
          Add an entry
        </button>
        {items.length > 0 && (
          <label>
            <input
              type="checkbox"
              checked={listed.open}
              onInput={(event) => put({ ...listed, open: event.currentTarget.checked })}
            />{' '}
            there may be others
          </label>
        )}
        <span class="unseen" role="status">
          {said}
        </span>
      </p>
    </div>
  );
}

/** An entry keeps its fields when one above it is removed. */
function useKeys(length: number): number[] {
  const next = useRef(0);
  const keys = useRef<number[]>([]);
  while (keys.current.length < length) {
    keys.current.push(next.current);
    next.current += 1;
  }
  keys.current.length = length;
  return keys.current;
}

/** The answers that a list without an entry can have. */
function Without({ labelledBy, value, onValue }: Pick<Props, 'labelledBy' | 'value' | 'onValue'>) {
  const absent = absentOf(value);
  const listed = listedOf(value);
  const unread = value !== undefined && absent === undefined && listed === undefined;
  const answers: Readonly<Record<string, CaseValue>> = { [NONE]: [], [OPEN]: { items: [], complete: false } };
  return (
    <select
      aria-labelledby={labelledBy}
      value={absent ?? (unread ? UNREAD : listed ? (listed.open ? OPEN : NONE) : '')}
      onInput={({ currentTarget: { value: picked } }) =>
        onValue(Object.hasOwn(answers, picked) ? answers[picked] : readAbsent(picked))
      }
    >
      <AbsentOptions none={NOBODY} value={absent} />
      <optgroup label="Answers">
        <option value={NONE}>there is none</option>
        <option value={OPEN}>there may be some, none is listed</option>
        {unread && <option value={UNREAD}>what is supplied is no list</option>}
      </optgroup>
    </select>
  );
}
