import type { Fact, FieldCondition, Items } from '../../release/fact.ts';
import { MS_PER_UNIT, midnights, parseDuration } from '../time.ts';
import { lengthOf, lookAt } from './items.ts';
import type { Watch, WatchInputs } from './kind.ts';

/** Items leave a window, and open stretches grow, as time passes; a use-by day is passed at midnight. */
export function watchItems(
  { of, where, within }: Items,
  fact: Fact,
  cuts: readonly number[],
  inputs: WatchInputs,
): Watch {
  const list = inputs.reading(of);
  const looked = lookAt({ of, ...(within ? { within } : {}) }, inputs);
  const back = within?.last === undefined ? undefined : lengthOf(within.last, inputs);
  const unit = MS_PER_UNIT[fact.unit ?? 'h'] ?? 1;
  const age = list.fact.staleAfter === undefined ? undefined : parseDuration(list.fact.staleAfter);
  const times = [
    ...looked.candidates.flatMap(({ span }) => [span.from.low, span.from.high, span.to.low, span.to.high]),
    looked.start.low,
    looked.start.high,
  ].filter(Number.isFinite);
  const lengths = where === undefined ? [] : lengthsIn(where, list.fact, inputs);
  const instants = times.flatMap((time) => [
    time,
    ...lengths.map((length) => time + length),
    ...(back === undefined ? [] : [time + back, ...cuts.map((cut) => time + back - cut * unit)]),
    ...(age === undefined ? [] : [time + age]),
    ...cuts.map((cut) => time + cut * unit),
  ]);
  const daily = Object.values(list.fact.item ?? {}).some(
    ({ from }) => from && JSON.stringify(from).includes('"asOf"'),
  );
  const days = daily ? midnights(inputs.from, inputs.to, inputs.zone) : [];
  return { instants: [...instants, ...days], pass: within?.since === undefined ? [] : [[within.since, []]] };
}

/** Lengths of time that a condition compares a field with: a field that follows the moment of the case crosses there. */
function lengthsIn(condition: FieldCondition, list: Fact, inputs: WatchInputs): number[] {
  if ('all' in condition) return condition.all.flatMap((one) => lengthsIn(one, list, inputs));
  if ('any' in condition) return condition.any.flatMap((one) => lengthsIn(one, list, inputs));
  if ('not' in condition) return lengthsIn(condition.not, list, inputs);
  const { field, value } = condition;
  const isReference = typeof value === 'object' && !Array.isArray(value) && 'parameter' in value;
  const constant = isReference ? inputs.parameter(value.parameter) : value;
  const { unit = '', step = 0 } = list.item?.[field] ?? {};
  const ms = MS_PER_UNIT[unit];
  if (ms === undefined || typeof constant !== 'number') return [];
  return [constant - step / 2, constant, constant + step / 2].map((length) => length * ms);
}
