import type { Fact, Items } from '../../release/fact.ts';
import { MS_PER_UNIT, midnights, parseDuration } from '../time.ts';
import { lengthOf, lookAt } from './items.ts';
import type { Watch, WatchInputs } from './kind.ts';

/** Items leave a window, and open stretches grow, as time passes; a use-by day is passed at midnight. */
export function watchItems(
  { of, within }: Items,
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
  const instants = times.flatMap((time) => [
    time,
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
