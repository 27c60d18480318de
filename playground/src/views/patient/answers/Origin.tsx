import type { CaseValue, Fact, StatedValue } from '@dwellset/core';
import { onTheClock, withOffset } from '../zoned.ts';
import { bareOf, COMPARATORS, isStated } from './values.ts';

interface Props {
  readonly fact: Fact;
  readonly value: CaseValue;
  readonly zone: string;
  readonly onValue: (value: CaseValue) => void;
}

/** When it was seen, where it comes from, how exact it is. */
export function Origin({ fact, value, zone, onValue }: Props) {
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
            {COMPARATORS.map(([sign, said]) => (
              <option key={sign} value={sign}>
                {said}
              </option>
            ))}
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
          Confirmed, however unusual
        </label>
      )}
    </details>
  );
}
