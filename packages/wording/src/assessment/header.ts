import type { RuleSetResult } from '@dwellset/core';
import { wrap } from '../layout.ts';
import { momentWords } from '../values/moment.ts';
import { counted } from '../words.ts';
import type { Context } from './context.ts';

/** Enough of a digest to tell two releases apart at a glance; the whole one is in the data. */
const SHORT = 12;

function digests(set: RuleSetResult): string {
  const { amendment } = set;
  if (!amendment) return `base ${set.digest.slice(0, SHORT)}`;
  const changes = counted(amendment.changes.length, 'change');
  return `base ${amendment.base.digest.slice(0, SHORT)} · local ${set.digest.slice(0, SHORT)}, ${changes}`;
}

/** Sets of one status under one line, their digests in a column. */
function ruleSetLines(sets: readonly RuleSetResult[], width: number): string[] {
  const names = new Map(sets.map((set) => [set, `${set.id} ${set.version}`]));
  const widest = Math.max(0, ...[...names.values()].map(({ length }) => length));
  return [...new Set(sets.map(({ status }) => status))].flatMap((status) => [
    ...wrap(`Rules · ${status}`, width, '', '  '),
    ...[...names]
      .filter(([set]) => set.status === status)
      .flatMap(([set, name]) => wrap(digests(set), width, `  ${name.padEnd(widest)}  `)),
  ]);
}

/** Which rules speak, in which state, and who took them on. */
export function headerLines({ assessment, zone, width }: Context): string[] {
  const { adoption } = assessment;
  const adopted = adoption
    ? `Adopted by ${adoption.organisation} · ${adoption.approverRole}, ${adoption.date} · review due ${adoption.reviewDue}`
    : 'Not adopted by any hospital: for trying out, not for use with patients.';
  return [
    ...wrap(`Assessment as of ${momentWords(assessment.asOf, zone)}, ${zone}`, width),
    '',
    ...ruleSetLines(assessment.ruleSets, width),
    ...wrap(adopted, width, '', '  '),
  ];
}
