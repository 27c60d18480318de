import type { Assessment } from '@dwellset/core';
import { endedWords, shownReasons } from '@dwellset/wording';
import { ledgerOf } from '../../bench/client.ts';
import { OutcomeMark } from '../../parts/Mark.tsx';
import { address } from '../../route.ts';
import { words } from '../../words.ts';
import { ReasonTree } from './Tree.tsx';
import { useAssessment, usePatient } from './useAssessment.ts';

const resultOf = (assessment: Assessment | undefined, set: string, rule: string) =>
  assessment?.ruleSets.find(({ id }) => id === set)?.rules.find(({ id }) => id === rule);

/** Why one rule ends as it does for one invented patient, and how it ended as published. */
export function ForPatient({ set, rule, patient: key }: { set: string; rule: string; patient: string }) {
  const patient = usePatient(set, key);
  const ours = useAssessment('ours', [set], patient).assessment;
  const base = useAssessment('base', [set], patient).assessment;
  const title = ledgerOf(set).rows.find((row) => row.key === key)?.title ?? key;
  const [now, before] = [resultOf(ours, set, rule), resultOf(base, set, rule)];
  if (patient === null) return <p class="aside">No patient of this name was found in this set.</p>;
  if (!ours || !now) {
    return (
      <p class="aside" role="status">
        {ours ? 'This rule is not among those tried.' : 'The patient is being tried …'}
      </p>
    );
  }
  const differs = before !== undefined && before.outcome !== now.outcome;
  const told = { words: words.value, zone: ours.case.timeZone };
  return (
    <section class="for-patient" aria-labelledby="for-patient">
      <h2 id="for-patient">For the patient: {title}</h2>
      <p class="ended">
        <OutcomeMark outcome={now.outcome} check={now.check !== undefined} /> {endedWords(now)}
        {differs && (
          <span class="aside">
            {' '}
            – as published: <OutcomeMark outcome={before.outcome} check={before.check !== undefined} />{' '}
            {endedWords(before)}
          </span>
        )}
      </p>
      <ReasonTree reasons={shownReasons(now)} {...told} />
      {differs && (
        <details>
          <summary>The same as published</summary>
          <ReasonTree reasons={shownReasons(before)} {...told} />
        </details>
      )}
      <p>
        <a href={address(['set', set, 'patient'], { for: key })}>Everything about this patient</a>
      </p>
    </section>
  );
}
