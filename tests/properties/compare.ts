/// <reference types="node" />
import { isDeepStrictEqual } from 'node:util';
import type { Assessment, Evaluation, Reading, RuleSetResult } from '@dwellset/core';
import type { ReferenceSet } from '../reference/assess.ts';
import type { Known } from '../reference/known.ts';
import type { World } from '../reference/world.ts';

export interface Disagreement {
  readonly what: string;
  readonly core: unknown;
  readonly reference: unknown;
}

/** Everything that both evaluators say about one case and that differs. */
export function disagreements(assessment: Assessment, reference: readonly ReferenceSet[]): Disagreement[] {
  return assessment.ruleSets.flatMap((set, index) => {
    const expected = reference[index] as ReferenceSet;
    const said = inReferenceTerms(set);
    const parts = ['id', 'rules', 'checks', 'conclusion', 'compliance', 'options'] as const;
    return parts.flatMap((part) =>
      isDeepStrictEqual(said[part], expected[part])
        ? []
        : [{ what: `${set.id} ${part}`, core: said[part], reference: expected[part] }],
    );
  });
}

function inReferenceTerms(set: RuleSetResult): ReferenceSet {
  const { conclusion, compliance, choices } = set;
  const checks = set.rules.flatMap((rule) => (rule.check === undefined ? [] : [[rule.id, rule.check]]));
  const byKind = choices?.map(({ of, options, provisional, nothingLeft, chosen }) => [
    of,
    {
      states: Object.fromEntries(options.map((option) => [option.id, option.state])),
      ranks: Object.fromEntries(options.flatMap(({ id, rank }) => (rank === undefined ? [] : [[id, rank]]))),
      provisional,
      ...(nothingLeft === undefined ? {} : { nothingLeft }),
      ...(chosen === undefined ? {} : { chosen: chosen.state }),
    },
  ]);
  return {
    id: set.id,
    rules: Object.fromEntries(set.rules.map((rule) => [rule.id, rule.outcome])),
    checks: Object.fromEntries(checks),
    ...(conclusion === undefined
      ? {}
      : {
          conclusion: {
            ...(conclusion.id === undefined ? {} : { id: conclusion.id }),
            settled: conclusion.settled,
            possible: conclusion.possible,
          },
        }),
    ...(compliance === undefined
      ? {}
      : { compliance: { all: compliance.all, met: [...compliance.met], of: [...compliance.of] } }),
    ...(byKind === undefined ? {} : { options: Object.fromEntries(byKind) }),
  } as ReferenceSet;
}

/** Facts that the two read differently: bounds, whether recorded, and why not exactly known. */
export function readingDisagreements(evaluation: Evaluation, world: World): Disagreement[] {
  return [...evaluation.readings].flatMap(([id, reading]) => {
    const core = readingText(reading);
    const reference = knownText(world.know(id), reading);
    return core === reference ? [] : [{ what: `reading of ${id}`, core, reference }];
  });
}

const WORDS = { 0: 'false', 2: 'unknown', 3: 'true' } as const;

function readingText({ bounds, recorded, cause, none }: Reading): string {
  const what =
    bounds.kind === 'interval'
      ? `${bounds.low} to ${bounds.high}`
      : bounds.kind === 'possible'
        ? [...bounds.possible].sort().join('|')
        : bounds.kind === 'answers'
          ? [...bounds.answers].map(([code, answer]) => `${code} ${WORDS[answer]}`).join(', ')
          : bounds.kind === 'list'
            ? `${bounds.items.length} entries`
            : bounds.text;
  return `${what}; recorded ${WORDS[recorded]}; ${cause ?? 'exact'}${none ? ', none' : ''}`;
}

function knownText(known: Known, { bounds }: Reading): string {
  const what =
    bounds.kind === 'interval'
      ? `${known.low} to ${known.high}`
      : bounds.kind === 'possible'
        ? [...known.may].sort().join('|')
        : bounds.kind === 'answers'
          ? [...bounds.answers.keys()].map((code) => `${code} ${known.answers[code]}`).join(', ')
          : bounds.kind === 'list'
            ? `${known.items?.length ?? 0} entries`
            : known.text;
  return `${what}; recorded ${known.recorded}; ${known.cause ?? 'exact'}${known.none ? ', none' : ''}`;
}
