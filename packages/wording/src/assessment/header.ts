import type { Adoption, RuleSetResult } from '@dwellset/core';
import { wrap } from '../layout.ts';
import { momentWords } from '../values/moment.ts';
import { counted } from '../words.ts';
import type { Content, Context } from './context.ts';

/** Enough of a digest to tell two releases apart at a glance; the whole one is in the data. */
const SHORT = 12;

/** Which text of the rules spoke, and how far it is from the published one. */
export function digestWords({ amendment, digest }: RuleSetResult): string {
  if (!amendment) return `base ${digest.slice(0, SHORT)}`;
  const changes = counted(amendment.changes.length, 'change');
  return `base ${amendment.base.digest.slice(0, SHORT)} · local ${digest.slice(0, SHORT)}, ${changes}`;
}

export const asOfWords = ({ assessment, zone }: Content): string =>
  `as of ${momentWords(assessment.asOf, zone)}, ${zone}`;

/** Who took the rules on; `undefined` stands for nobody. */
export const adoptedWords = (
  adoption: Pick<Adoption, 'organisation' | 'approverRole' | 'date' | 'reviewDue'> | null | undefined,
): string =>
  adoption
    ? `Adopted by ${adoption.organisation} · ${adoption.approverRole}, ${adoption.date} · review due ${adoption.reviewDue}`
    : 'Not adopted by any hospital: for trying out, not for use with patients.';

/** Sets by status, in the order in which statuses first appear. */
export const byStatus = <T extends { readonly status: string }>(
  sets: readonly T[],
): (readonly [string, readonly T[]])[] =>
  [...new Set(sets.map(({ status }) => status))].map((status) => [
    status,
    sets.filter((set) => set.status === status),
  ]);

/** Sets of one status under one line, their digests in a column. */
function ruleSetLines(sets: readonly RuleSetResult[], width: number): string[] {
  const names = new Map(sets.map((set) => [set, `${set.id} ${set.version}`]));
  const widest = Math.max(0, ...[...names.values()].map(({ length }) => length));
  return byStatus(sets).flatMap(([status, own]) => [
    ...wrap(`Rules · ${status}`, width, '', '  '),
    ...own.flatMap((set) => wrap(digestWords(set), width, `  ${(names.get(set) ?? '').padEnd(widest)}  `)),
  ]);
}

/** Which rules speak, in which state, and who took them on. */
export function headerLines(context: Context): string[] {
  const { assessment, width } = context;
  return [
    ...wrap(`Assessment ${asOfWords(context)}`, width),
    '',
    ...ruleSetLines(assessment.ruleSets, width),
    ...wrap(adoptedWords(assessment.adoption), width, '', '  '),
  ];
}
