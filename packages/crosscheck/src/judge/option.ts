import type { OptionState, Reading } from '@dwellset/core';
import { boundsOf, isOneNumber } from '../bounds/factBounds.ts';
import { bothOf, fails, isOpen, type Pair } from '../bounds/pair.ts';
import type { Answers } from '../engine/groupEngine.ts';
import type { Standing } from './standing.ts';

/** One option (or the item in the hand) as the rules of its kind see it. */
export interface OptionStanding {
  readonly id: string;
  readonly state: OptionState;
  readonly excludedBy: readonly string[];
  readonly undecided: readonly string[];
  readonly preferredBy: readonly string[];
  readonly remarkedBy: readonly string[];
  /** Places by preference rule, in rule order; smaller comes first. */
  readonly places: readonly number[];
  /** A preference that may still change the places. */
  readonly unsure: boolean;
}

export function judgeOption(
  id: string,
  rules: readonly Standing[],
  answers: Answers,
  readings: ReadonlyMap<string, Reading>,
): OptionStanding {
  const excluding = rules.flatMap((standing) => {
    const excludes = answers.of(standing.rule.id, 'excludes');
    return excludes ? [{ standing, excluded: bothOf(standing.applies, excludes) }] : [];
  });
  const excludedBy = excluding.filter(({ excluded }) => excluded.certain);
  const open = excluding.filter(({ excluded }) => isOpen(excluded));
  const preferences = rules.flatMap((standing) => preference(standing, answers, readings));
  const remarking = rules.filter((standing) => {
    const remarks = answers.of(standing.rule.id, 'remarks');
    return remarks && bothOf(standing.applies, remarks).certain;
  });
  return {
    id,
    state: stateOf(excludedBy.length > 0, open),
    excludedBy: excludedBy.map(({ standing }) => standing.rule.id),
    undecided: open.map(({ standing }) => standing.rule.id),
    remarkedBy: remarking.map(({ rule }) => rule.id),
    preferredBy: preferences.flatMap(({ preferredBy }) => preferredBy ?? []),
    places: preferences.map(({ place }) => place),
    unsure: preferences.some(({ unsure }) => unsure),
  };
}

function stateOf(
  isExcluded: boolean,
  open: readonly { readonly standing: Standing; readonly excluded: Pair }[],
): OptionState {
  if (isExcluded) return 'ruled-out';
  if (open.some(({ standing }) => standing.rule.locked)) return 'held';
  return open.length > 0 ? 'to-confirm' : 'open';
}

interface Preference {
  readonly place: number;
  readonly unsure: boolean;
  /** The rule, where it prefers this option to others by a condition. */
  readonly preferredBy?: string;
}

function preference(
  { rule, applies }: Standing,
  answers: Answers,
  readings: ReadonlyMap<string, Reading>,
): readonly Preference[] {
  if (!rule.prefers) return [];
  if ('options' in rule.prefers) {
    const wanted = answers.of(rule.id, 'prefers');
    if (!wanted) return [];
    const preferred = bothOf(applies, wanted);
    if (fails(preferred)) return [{ place: 1, unsure: false }];
    return [{ place: 0, unsure: isOpen(preferred), preferredBy: rule.id }];
  }
  if (fails(applies)) return [{ place: 0, unsure: false }];
  // What is not exactly known cannot be called the smallest.
  const reading = readings.get(rule.prefers.lowest);
  const bounds = reading && boundsOf(reading);
  const known = bounds !== undefined && isOneNumber(bounds);
  return [{ place: known ? bounds.low : Infinity, unsure: !known || isOpen(applies) }];
}
