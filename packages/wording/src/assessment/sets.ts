import type { CheckWord, Compliance, ConclusionResult, RuleSetResult } from '@dwellset/core';
import { blocks, labelled, wrap } from '../layout.ts';
import { listed } from '../words.ts';
import { choiceLines } from './choice.ts';
import type { Context } from './context.ts';

function conclusionLines(set: RuleSetResult, conclusion: ConclusionResult, context: Context): string[] {
  const title = conclusion.title ?? conclusion.id;
  if (title === undefined) return [];
  const others = conclusion.possible
    .filter((id) => id !== conclusion.id)
    .map((id) => `"${context.words.conclusions.get(`${set.id}/${id}`) ?? id}"`);
  const state = conclusion.settled
    ? 'settled'
    : `not yet settled: could still be ${others.length === 0 ? 'another' : listed(others, 'or')}`;
  return wrap(`${title} – ${state}`, context.width, '  ');
}

const range = ([low, high]: readonly [number, number]): string =>
  low === high ? String(low) : `${low} to ${high}`;

const ALL: Readonly<Record<Compliance['all'], string>> = {
  true: 'all met',
  false: 'not all met',
  unknown: 'not known yet whether all are met',
};

const GROUPS: readonly (readonly [CheckWord, string])[] = [
  ['not-met', 'Not met'],
  ['not-recorded', 'Not recorded'],
  ['undetermined', 'Not known'],
];

function complianceLines(set: RuleSetResult, compliance: Compliance, width: number): string[] {
  const summary = `${range(compliance.met)} met of ${range(compliance.of)} checks that apply · ${ALL[compliance.all]}`;
  const open = GROUPS.flatMap(([check, heading]) => {
    const titles = set.rules.filter((rule) => rule.check === check).map((rule) => rule.title);
    return titles.length === 0 ? [] : wrap(titles.join('; '), width, `     ${heading.padEnd(14)}`);
  });
  return [...wrap(summary, width, '  '), ...open];
}

/** What one rule set comes to as a whole, beyond its single advice. */
function setLines(set: RuleSetResult, context: Context): string[] {
  const { width } = context;
  if (set.population === 'out') {
    return wrap(set.outside ?? 'The patient is outside the population of this rule set.', width, '  ');
  }
  return [
    ...(set.population === 'not-established'
      ? wrap('Population not established: only locked rules speak until it is.', width, '  ')
      : []),
    ...(set.conclusion ? conclusionLines(set, set.conclusion, context) : []),
    ...(set.compliance ? complianceLines(set, set.compliance, width) : []),
    ...blocks((set.choices ?? []).map((choice) => choiceLines(set, choice, context))),
  ];
}

export function setSections(context: Context): string[][] {
  return context.assessment.ruleSets.flatMap((set) => {
    const lines = setLines(set, context);
    return lines.length === 0 ? [] : [[set.title, '', ...lines]];
  });
}

/** What each rule set is for, and what a hospital has changed in it. */
export function aboutSection({ assessment, width }: Context): string[] {
  const lines = (label: string, texts: readonly string[]) => labelled(label, texts, width);
  const about = assessment.ruleSets.flatMap(({ amendment, ...set }) => [
    '',
    ...wrap(`${set.title}, ${set.id}@${set.version}`, width, '  '),
    ...lines('Use', [set.intendedUse]),
    ...lines('Users', [set.users]),
    ...lines('Not for', set.exclusions),
    ...lines('Limits', set.limits),
    ...lines('Digest', [set.digest]),
    ...(amendment
      ? [
          ...lines('Base', [amendment.base.digest]),
          ...lines('Changed', [
            `by ${amendment.organisation}, ${amendment.approverRole}, ${amendment.date}`,
            ...amendment.changes.map(({ item, change, from, to, reason }) => {
              const values =
                from === undefined && to === undefined
                  ? ''
                  : ` from ${from ?? 'nothing'} to ${to ?? 'nothing'}`;
              return `${item}: ${change}${values} – ${reason}`;
            }),
          ]),
        ]
      : []),
  ]);
  return ['About these rule sets', ...about];
}
