import type { Reason, RuleReasons } from '@dwellset/core';
import { REASON_PARTS, reasonWords, TRUTH_WORDS, type Words } from '@dwellset/wording';
import { useSignal } from '@preact/signals';
import { TruthMark } from '../../parts/Mark.tsx';

interface Told {
  readonly words: Words;
  readonly zone: string;
}

/** The tree without what did not decide; a group keeps its deciding members. */
function decidingOnly(reason: Reason): Reason {
  if (!('of' in reason)) return reason;
  const of = reason.of.filter(({ deciding }) => deciding).map(decidingOnly);
  return of.length === 0 ? reason : ({ ...reason, of } as Reason);
}

function Node({ reason, mark, ...told }: Told & { reason: Reason; mark: boolean }) {
  return (
    <li>
      <span class="truth">
        <TruthMark truth={reason.truth} /> {TRUTH_WORDS[reason.truth]}
      </span>{' '}
      <span class={reason.deciding ? 'said decides' : 'said'}>
        {reasonWords(reason, told)}
        {mark && reason.deciding && <span class="id"> decides</span>}
      </span>
      {'of' in reason && reason.of.length > 0 && (
        <ul>
          {reason.of.map((part, index) => (
            <Node key={index} reason={part} mark={mark} {...told} />
          ))}
        </ul>
      )}
    </li>
  );
}

/** Why one rule ended as it did: the conditions that decided, and every other on demand. */
export function ReasonTree({ reasons, ...told }: Told & { reasons: RuleReasons }) {
  const all = useSignal(false);
  const parts = REASON_PARTS.flatMap(([part, heading]) => {
    const reason = reasons[part];
    return reason ? [{ heading, reason }] : [];
  });
  if (parts.length === 0) return <p class="aside">Nothing had to be read for this.</p>;
  return (
    <div class="reasons">
      {parts.map(({ heading, reason }) => (
        <div key={heading}>
          <p class="part-of">{heading}</p>
          <ul class="tree">
            <Node reason={all.value ? reason : decidingOnly(reason)} mark={all.value} {...told} />
          </ul>
        </div>
      ))}
      <button type="button" aria-pressed={all.value} onClick={() => (all.value = !all.value)}>
        {all.value ? 'Only what decided' : 'Every condition'}
      </button>
    </div>
  );
}
