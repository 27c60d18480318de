import { unitWords } from '@dwellset/wording';
import { useEffect, useState } from 'preact/hooks';
import { type AnswerProps, absentOf, bareOf, COMPARATORS, isStated, restated } from './values.ts';

/** A number, a date or a text; an empty field means that nobody supplied it. */
export function Typed({ asked, labelledBy, value, onValue }: AnswerProps) {
  const bare = bareOf(value);
  const known = bare === undefined || bare === null || absentOf(value) !== undefined ? '' : String(bare);
  const [text, setText] = useState(known);
  const isNumber = asked.type === 'number';
  useEffect(() => {
    if (isNumber ? Number(text) !== Number(known) || (text === '') !== (known === '') : text !== known)
      setText(known);
  }, [known]);
  // A value in another unit, or only a bound, must not be read as the plain number.
  const unit = isStated(value) ? (value.unit ?? asked.unit) : asked.unit;
  const comparator = isStated(value) ? value.comparator : undefined;
  // A month alone is a date here, and the field for dates cannot hold one.
  const byMonth = asked.type === 'date' && asked.monthMeans !== undefined;
  const { limits, step } = asked;
  const field = isNumber
    ? { type: 'number', step: step ?? 'any', ...(limits && { min: limits[0], max: limits[1] }) }
    : { type: asked.type === 'date' && !byMonth ? 'date' : 'text' };
  return (
    <span class="measured">
      {comparator !== undefined && (
        <span class="unit">{COMPARATORS.find(([sign]) => sign === comparator)?.[1]} </span>
      )}
      <input
        {...(field as { type: 'text' })}
        {...(byMonth && {
          size: 11,
          placeholder: 'YYYY-MM',
          'aria-description': 'year-month, or year-month-day',
        })}
        aria-labelledby={labelledBy}
        value={text}
        onInput={(event) => {
          const typed = event.currentTarget.value;
          setText(typed);
          if (typed === '') onValue(undefined);
          else if (!isNumber) onValue(restated(value, typed));
          else if (Number.isFinite(Number(typed))) onValue(restated(value, Number(typed), unit));
        }}
      />{' '}
      {isNumber && <span class="unit">{unitWords(unit, Number(text))}</span>}
    </span>
  );
}
