import type { CaseValue, Fact } from '@dwellset/core';
import { Answer } from './answers/Answer.tsx';
import { Entries } from './answers/Entries.tsx';
import { Origin } from './answers/Origin.tsx';
import { absentOf } from './answers/values.ts';

interface Props {
  readonly fact: Fact;
  readonly value: CaseValue | undefined;
  readonly zone: string;
  readonly onValue: (value: CaseValue | undefined) => void;
}

/** One question of the dictionary with the answers that it can have. */
export function FactField({ fact, value, zone, onValue }: Props) {
  const isList = fact.type === 'list';
  const labelledBy = `q-${fact.id}`;
  const answer = { label: fact.question, labelledBy, value, zone, onValue };
  return (
    <div class={['fact', value !== undefined && 'answered', isList && 'listed'].filter(Boolean).join(' ')}>
      <p class="question" id={labelledBy}>
        {fact.question}
      </p>
      <div class="answer">
        {isList ? <Entries fact={fact} {...answer} /> : <Answer asked={fact} {...answer} />}
        {value !== undefined && absentOf(value) === undefined && !isList && (
          <Origin {...{ fact, value, zone, onValue }} />
        )}
      </div>
    </div>
  );
}
