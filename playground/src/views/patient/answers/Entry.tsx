import type { CaseValue, Fact, ListItem } from '@dwellset/core';
import { upperFirst } from '@dwellset/wording';
import { Answer } from './Answer.tsx';
import { fieldsOf } from './listed.ts';

interface Props {
  readonly fact: Fact;
  readonly item: ListItem;
  /** Its place in the list, from 1. */
  readonly number: number;
  readonly id: string;
  readonly zone: string;
  readonly onField: (name: string, value: CaseValue | undefined) => void;
  readonly onRemove: () => void;
}

/** One entry of a list, a field for each thing that is asked of it. */
export function Entry({ fact, item, number, id, zone, onField, onRemove }: Props) {
  return (
    <fieldset class="entry">
      <legend>
        Entry {number} <span class="unseen">of {fact.title}</span>
      </legend>
      {fieldsOf(fact, item).map(([name, asked]) => {
        const label = upperFirst(asked.title);
        return (
          <p class="of-entry" key={name}>
            <span class="asked" id={`${id}-${name}`}>
              {label}
            </span>
            <Answer
              asked={asked}
              label={label}
              labelledBy={`${id}-${name}`}
              value={item[name]}
              zone={zone}
              onValue={(value) => onField(name, value)}
            />
          </p>
        );
      })}
      <button type="button" class="remove" onClick={onRemove} aria-label={`Remove entry ${number}`}>
        Remove
      </button>
    </fieldset>
  );
}
