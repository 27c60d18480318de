import { evaluate, explain, type Fact, type Plan, type Reading, type Release } from '@dwellset/core';
import { type Mismatch, mismatches, readFor } from '../vignettes/expectations.ts';
import type { Read } from './notice.ts';

/** Facts that follow from a local choice, or from the conclusion of a set that uses it. */
export function factsBehind([own, ...read]: readonly Release[], id: string): readonly Fact[] {
  const isRead = read.some(({ parameters }) => parameters.some((one) => one.id === id));
  return own!.facts.filter(
    ({ from }) =>
      from !== undefined && (JSON.stringify(from).includes(`"${id}"`) || (isRead && 'conclusion' in from)),
  );
}

/**
 * The expectations that fail under a plan of its own. A vignette in which all those facts are read as before says the
 * same, unless it looks at questions or texts.
 */
export function missedAlone(
  { evaluation: before, expect }: Read,
  plan: Plan,
  set: string,
  facts: readonly Fact[],
): Mismatch[] {
  const after = evaluate(plan, before.case);
  const same =
    expect.ask === undefined &&
    expect.summary === undefined &&
    facts.every(({ id }) => {
      const [a, b] = [before.readings.get(id), after.readings.get(id)];
      return a !== undefined && b !== undefined && written(a) === written(b);
    });
  return same ? [] : mismatches(expect, explain(after, readFor(expect)), set);
}

/** A reading as text. JSON knows neither maps nor the end of an open interval. */
const written = ({ fact: _, ...reading }: Reading): string =>
  JSON.stringify(reading, (_key, value: unknown) =>
    value instanceof Map ? [...value] : typeof value === 'number' ? String(value) : value,
  );
