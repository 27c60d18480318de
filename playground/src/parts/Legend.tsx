import { outcomeWords } from '@dwellset/wording';
import { OUTCOMES } from '../bench/outcomes.ts';
import { checkOf, OutcomeMark } from './Mark.tsx';

export const Legend = ({ check }: { check: boolean }) => (
  <p class="aside legend">
    {OUTCOMES.map((outcome) => (
      <span key={outcome}>
        <OutcomeMark outcome={outcome} check={check} />
        {outcomeWords({ outcome, ...(check && { check: checkOf(outcome) }) })}
      </span>
    ))}
    <span>
      <span class="sample inked">
        <OutcomeMark outcome="applies" check={check} />
      </span>
      changed by your edit
    </span>
  </p>
);
