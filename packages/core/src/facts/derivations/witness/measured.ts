import type { Fact } from '../../../release/fact.ts';
import { roundToStep } from '../../rounding.ts';
import { localDay, MS_PER_UNIT, startOfDay } from '../../time.ts';
import { scaleOf, turn } from './scale.ts';
import { search, type Values } from './search.ts';
import type { ExactValue, Trial } from './trial.ts';

/** Kinds that rise or fall with each of their operands. */
export function monotone(trial: Trial, target: ExactValue): Values | undefined {
  return typeof target === 'number' ? search(trial, target, trial.operands) : undefined;
}

/** Whole milliseconds or days apart; what lies between them is not looked for. */
const betweenWhole =
  (unitOf: (fact: Fact) => number) =>
  (trial: Trial, target: ExactValue): Values | undefined => {
    const { fact } = trial;
    const unit = unitOf(fact);
    const whole = Math.round(Number(target) * unit);
    const reached = [whole - 1, whole, whole + 1].some(
      (apart) => roundToStep(apart / unit, fact.step) === target,
    );
    return reached ? monotone(trial, target) : undefined;
  };

export const elapsed = betweenWhole((fact) => MS_PER_UNIT[fact.unit ?? 'h'] ?? 1);
export const calendarDays = betweenWhole(() => 1);

export function ratio(trial: Trial, target: ExactValue): Values | undefined {
  const { from } = trial.fact;
  const divisors = from && 'ratio' in from ? from.ratio.slice(1) : [];
  const facts = divisors.filter((operand) => typeof operand === 'string');
  return typeof target === 'number' ? search(trial, target, trial.operands, new Set(facts)) : undefined;
}

/** A clock change may leave an hour out of one day; a week holds a day that has it. */
const DAYS_BACK = 7;

/** Within a day the hour rises with the instant, so it is found by halving, on the latest day that has it. */
export function localHour(trial: Trial, target: ExactValue): Values | undefined {
  if (typeof target !== 'number') return undefined;
  const [at] = trial.operands;
  const { asOf, zone } = trial.inputs;
  if (at === undefined) return trial.gives(target) ? new Map() : undefined;
  const scale = scaleOf(trial.inputs.fact(at), asOf, false)!;
  const today = localDay(asOf, zone);
  for (let day = today; day >= today - DAYS_BACK; day -= 1) {
    const [first, last] = [startOfDay(day, zone), Math.min(startOfDay(day + 1, zone) - 1, asOf)];
    const { start } = turn(scale, first, last, (instant) => {
      trial.set(at, instant);
      return trial.ends().low >= target;
    });
    if (start === undefined) continue;
    trial.set(at, start);
    if (trial.gives(target)) return new Map([[at, start]]);
  }
  return undefined;
}
