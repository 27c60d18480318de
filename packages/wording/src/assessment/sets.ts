import type { CheckWord, Compliance, RuleSetResult } from '@dwellset/core';
import { blocks, labelled, wrap } from '../layout.ts';
import { listed } from '../words.ts';
import { choiceLines } from './choice.ts';
import type { Content, Context, Part } from './context.ts';
import { nearMissWords } from './nearMiss.ts';

/** What a decision comes to, and whether it can still change. */
export function conclusionWords(
  { id, conclusion }: RuleSetResult,
  { words }: Content,
): { readonly title: string; readonly state: string } | undefined {
  const title = conclusion?.title ?? conclusion?.id;
  if (conclusion === undefined || title === undefined) return undefined;
  const others = conclusion.possible
    .filter((possible) => possible !== conclusion.id)
    .map((possible) => `"${words.conclusions.get(`${id}/${possible}`) ?? possible}"`);
  const state = conclusion.settled
    ? 'settled'
    : `not yet settled: could still be ${others.length === 0 ? 'another' : listed(others, 'or')}`;
  return { title, state };
}

export const range = ([low, high]: readonly [number, number]): string =>
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

/** How many checks are met, and which are not or not yet. */
export function complianceWords({
  compliance,
  rules,
}: RuleSetResult): { readonly summary: string; readonly open: readonly Part[] } | undefined {
  if (!compliance) return undefined;
  const { met, of, all } = compliance;
  return {
    summary: `${range(met)} met of ${range(of)} checks that apply · ${ALL[all]}`,
    open: GROUPS.map(([check, label]) => ({
      label,
      texts: rules.filter((rule) => rule.check === check).map((rule) => rule.title),
    })).filter(({ texts }) => texts.length > 0),
  };
}

/** Where the set does not, or not fully, speak about this patient. */
export function populationWords({ population, outside }: RuleSetResult): string | undefined {
  if (population === 'out') return outside ?? 'The patient is outside the population of this rule set.';
  return population === 'not-established'
    ? 'Population not established: only locked rules speak until it is.'
    : undefined;
}

/** What stands before a rule that was asked about and not met. */
export const WEIGHED = 'Weighed, not met:';

/** What one rule set comes to as a whole, beyond its single advice. */
function setLines(set: RuleSetResult, context: Context): string[] {
  const { width } = context;
  const line = (text: string | undefined, first = '  ') =>
    text === undefined ? [] : wrap(text, width, first);
  const patients = line(populationWords(set));
  if (set.population === 'out') return patients;
  const conclusion = conclusionWords(set, context);
  const compliance = complianceWords(set);
  return [
    ...patients,
    ...line(conclusion && `${conclusion.title} – ${conclusion.state}`),
    ...nearMissWords(set, context).flatMap(({ rule, said }) =>
      line(`${WEIGHED} "${rule.title}": ${said}`, '     '),
    ),
    ...line(compliance?.summary),
    ...(compliance?.open ?? []).flatMap(({ label, texts }) =>
      line(texts.join('; '), `     ${label.padEnd(14)}`),
    ),
    ...blocks((set.choices ?? []).map((choice) => choiceLines(set, choice, context))),
  ];
}

export function setSections(context: Context): string[][] {
  return context.assessment.ruleSets.flatMap((set) => {
    const lines = setLines(set, context);
    return lines.length === 0 ? [] : [[set.title, '', ...lines]];
  });
}

type About = Pick<RuleSetResult, 'intendedUse' | 'users' | 'exclusions' | 'limits' | 'digest' | 'amendment'>;

/** What a rule set is for, which text of it this is, and what a hospital has changed in it. */
export function aboutParts({ amendment, ...set }: About): Part[] {
  const parts: readonly Part[] = [
    { label: 'Use', texts: [set.intendedUse] },
    { label: 'Users', texts: [set.users] },
    { label: 'Not for', texts: set.exclusions },
    { label: 'Limits', texts: set.limits },
    { label: 'Digest', texts: [set.digest] },
    { label: 'Base', texts: amendment ? [amendment.base.digest] : [] },
    {
      label: 'Changed',
      texts: amendment
        ? [
            `by ${amendment.organisation}, ${amendment.approverRole}, ${amendment.date}`,
            ...amendment.changes.map(({ item, change, from, to, reason }) => {
              const values =
                from === undefined && to === undefined
                  ? ''
                  : ` from ${from ?? 'nothing'} to ${to ?? 'nothing'}`;
              return `${item}: ${change}${values} – ${reason}`;
            }),
          ]
        : [],
    },
  ];
  return parts.filter(({ texts }) => texts.length > 0);
}

export const ABOUT_HEADING = 'About these rule sets';

export const aboutSection = ({ assessment, width }: Context): string[] => [
  ABOUT_HEADING,
  ...assessment.ruleSets.flatMap((set) => [
    '',
    ...wrap(`${set.title}, ${set.id}@${set.version}`, width, '  '),
    ...aboutParts(set).flatMap(({ label, texts }) => labelled(label, texts, width)),
  ]),
];
