import { words } from '../../../words.ts';
import { onTheClock, withOffset } from '../zoned.ts';
import { Absent, AbsentOptions } from './Absent.tsx';
import { CodesAnswer } from './CodesAnswer.tsx';
import { Typed } from './Typed.tsx';
import { type AnswerProps, absentOf, bareOf, NOBODY, readAbsent, restated } from './values.ts';

/** The control that fits what is asked, for every type but a list. */
export function Answer(props: AnswerProps) {
  switch (props.asked.type) {
    case 'boolean':
    case 'code':
      return <Picked {...props} />;
    case 'codes':
      return <CodesAnswer {...props} />;
    case 'date-time':
      return <Instant {...props} />;
    default:
      return (
        <>
          <Typed {...props} /> <Absent {...props} />
        </>
      );
  }
}

const YES_NO: readonly (readonly [string, string])[] = [
  ['true', 'yes'],
  ['false', 'no'],
];

/** One of a few answers, or the reason why there is none. */
function Picked({ asked, labelledBy, value, onValue }: AnswerProps) {
  const isBoolean = asked.type === 'boolean';
  const options = isBoolean ? YES_NO : Object.entries(words.value.codes[asked.codes ?? ''] ?? {});
  const absent = absentOf(value);
  const shown = absent ?? (value === undefined ? '' : String(bareOf(value)));
  return (
    <select
      aria-labelledby={labelledBy}
      value={shown}
      onInput={(event) => {
        const picked = event.currentTarget.value;
        const isAnswer = options.some(([code]) => code === picked);
        onValue(isAnswer ? restated(value, isBoolean ? picked === 'true' : picked) : readAbsent(picked));
      }}
    >
      <AbsentOptions none={NOBODY} value={absent} />
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

/** A day and a time on the clock of the patient's time zone. */
function Instant(props: AnswerProps) {
  const { labelledBy, value, zone, onValue } = props;
  const bare = bareOf(value);
  return (
    <>
      <input
        type="datetime-local"
        aria-labelledby={labelledBy}
        value={typeof bare === 'string' ? onTheClock(bare, zone) : ''}
        onInput={(event) => {
          const local = event.currentTarget.value;
          onValue(local === '' ? undefined : restated(value, withOffset(local, zone)));
        }}
      />{' '}
      <Absent {...props} />
    </>
  );
}
