import { type Case, compile, type Plan } from '@dwellset/core';
import { type Answer, answersOf } from './answers.ts';
import { directionOf } from './direction.ts';
import type { Direction, Side } from './shape.ts';

/** One answer that comes out otherwise. */
export interface Difference {
  readonly subject: string;
  readonly item?: string;
  readonly direction: Direction;
  readonly before: string;
  readonly after: string;
}

/** Both sides, ready to run on any case. */
export interface Pair {
  readonly set: string;
  readonly before: Plan | undefined;
  readonly after: Plan | undefined;
}

/** A comparison looks at releases of any standing: nothing here reaches a patient. */
const planOf = (side: Side | undefined): Plan | undefined =>
  side && compile(side, { allow: ['draft', 'retired', 'withdrawn', 'out-of-period'] });

export const pairOf = (before: Side | undefined, after: Side | undefined): Pair => ({
  set: (after ?? before)?.[0].id ?? '',
  before: planOf(before),
  after: planOf(after),
});

const NOTHING: ReadonlyMap<string, Answer> = new Map();
const shown = (answer: Answer | undefined): string =>
  answer === undefined
    ? 'silent'
    : answer.state === 'applies' && answer.indicator
      ? `applies, ${answer.indicator}`
      : answer.state;

/** Runs a case on both sides and lists every answer that differs, and how many there were. */
export function differences(
  { set, before, after }: Pair,
  patient: Case,
): { readonly differ: readonly Difference[]; readonly answers: number } {
  const [first, second] = [before, after].map((plan) => (plan ? answersOf(plan, set, patient) : NOTHING));
  const keys = new Set([...(first ?? NOTHING).keys(), ...(second ?? NOTHING).keys()]);
  const differ: Difference[] = [];
  for (const key of keys) {
    const [from, to] = [first?.get(key), second?.get(key)];
    const direction = directionOf(from, to);
    if (direction === undefined) continue;
    const { subject, item } = (to ?? from) as Answer;
    differ.push({ subject, ...(item && { item }), direction, before: shown(from), after: shown(to) });
  }
  return { differ, answers: keys.size };
}
