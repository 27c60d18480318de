import { interval } from '../kind.ts';
import { plainValues, type Scale, scaleOf, turn } from './scale.ts';
import type { Trial, WitnessValue } from './trial.ts';

export type Values = ReadonlyMap<string, WitnessValue>;

/**
 * Exact values of `free` operands that give `target`, for a kind that rises or falls with each operand. One operand
 * after the other is held still at values that leave the target within reach; the last one is then found by halving.
 */
export function search(
  trial: Trial,
  target: number,
  free: readonly string[],
  divisors: ReadonlySet<string> = new Set(),
): Values | undefined {
  const { asOf } = trial.inputs;
  const scales = new Map<string, Scale>();
  for (const id of free) {
    const scale = scaleOf(trial.inputs.fact(id), asOf, divisors.has(id));
    if (scale === undefined) return undefined;
    scales.set(id, scale);
    trial.put(id, interval(scale.value(scale.first), scale.value(scale.last)));
  }
  const order = finestLast(free, trial, scales);
  const chosen = new Map<string, number>();

  const fix = (depth: number): boolean => {
    const id = order[depth];
    if (id === undefined) return trial.gives(target) && trial.inOrder(chosen);
    const scale = scales.get(id)!;
    const window = within(trial, id, scale, target);
    if (window) {
      for (const index of candidates(trial, id, scale, window, target, depth === order.length - 1)) {
        if (trial.left < 0) break;
        chosen.set(id, scale.value(index));
        trial.set(id, scale.value(index));
        if (fix(depth + 1)) return true;
      }
    }
    chosen.delete(id);
    trial.put(id, interval(scale.value(scale.first), scale.value(scale.last)));
    return false;
  };
  return fix(0) ? chosen : undefined;
}

/** An operand without a step can make up for what the others leave over. */
function finestLast(free: readonly string[], trial: Trial, scales: ReadonlyMap<string, Scale>): string[] {
  const grain = (id: string): number =>
    scales.get(id)!.stepped ? (trial.inputs.fact(id).step ?? 1) : Number.MIN_VALUE;
  return [...free].sort((a, b) => grain(b) - grain(a));
}

type Window = readonly [first: number, last: number];

/** Values of one operand that leave the target within reach of those that are still open. */
function within(trial: Trial, id: string, scale: Scale, target: number): Window | undefined {
  const at = (index: number) => {
    trial.set(id, scale.value(index));
    return trial.ends();
  };
  const { first, last } = scale;
  const [a, b] = [at(first), at(last)];
  const rises = a.low <= b.low && a.high <= b.high;
  const enough = rises
    ? turn(scale, first, last, (index) => at(index).high >= target).start
    : turn(scale, first, last, (index) => at(index).low <= target).start;
  const tooMuch = rises
    ? turn(scale, first, last, (index) => at(index).low > target).before
    : turn(scale, first, last, (index) => at(index).high < target).before;
  return enough === undefined || tooMuch === undefined || enough > tooMuch ? undefined : [enough, tooMuch];
}

/** Plain values first, then from the middle outwards: there the open operands have most room. */
function* candidates(
  trial: Trial,
  id: string,
  scale: Scale,
  [first, last]: Window,
  target: number,
  isLast: boolean,
): Generator<number> {
  const { asOf, zone } = trial.inputs;
  const fact = trial.inputs.fact(id);
  const tried = new Set<number>();
  const middle = scale.stepped ? Math.round(first / 2 + last / 2) : first / 2 + last / 2;
  const plain = plainValues(fact, target, asOf, zone).map((value) =>
    Math.min(last, Math.max(first, scale.nearest(value))),
  );
  for (const index of [...plain, first, middle, last]) {
    if (!tried.has(index)) yield index;
    tried.add(index);
  }
  if (isLast) return;
  const stride = scale.stepped ? 1 : (last - first) / 64;
  for (let away = stride; stride > 0 && away <= last - first; away += stride) {
    for (const index of [middle - away, middle + away])
      if (index >= first && index <= last && !tried.has(index)) yield index;
  }
}
