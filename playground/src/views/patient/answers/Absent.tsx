import type { AbsentReason } from '@dwellset/core';
import { causeWords } from '@dwellset/wording';
import { ABSENT, type AnswerProps, absentOf, NULL, readAbsent } from './values.ts';

export const absentWords = (absent: string): string =>
  causeWords(absent === NULL ? 'nothing-recorded' : (absent as AbsentReason));

/** The reasons for which there can be no value, for a list of answers. */
export function AbsentOptions({ none, value }: { none: string; value?: string | undefined }) {
  // A reason that a case file gave stays to be read, whether it is offered here or not.
  const others = value === undefined || value === '' || value === NULL ? [] : [value as AbsentReason];
  return (
    <>
      <option value="">{none}</option>
      <option value={NULL}>{absentWords(NULL)}</option>
      {[...new Set([...ABSENT, ...others])].map((reason) => (
        <option key={reason} value={reason}>
          {absentWords(reason)}
        </option>
      ))}
    </>
  );
}

/** Why there is no value: each is an answer of its own. */
export function Absent({ value, label, onValue }: Pick<AnswerProps, 'value' | 'label' | 'onValue'>) {
  const absent = absentOf(value);
  return (
    <select
      class={absent === undefined ? 'absent' : 'absent said'}
      aria-label={`${label}: if there is no value`}
      value={absent ?? ''}
      onInput={(event) => onValue(readAbsent(event.currentTarget.value))}
    >
      <AbsentOptions none="or …" value={absent} />
    </select>
  );
}
