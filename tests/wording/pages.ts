import { buildRelease } from '@dwellset/authoring';
import { type Assessment, assess, type Case, compile, digest, type Release } from '@dwellset/core';
import type { HandbookShown } from '@dwellset/wording';
import { caseAt, library } from '../policies/shipped.ts';

/** The shipped rule sets as an invented hospital has amended them. */
export const releases: readonly Release[] = [...library.sets.keys()].map((set) => {
  const { release } = buildRelease(library, set, { hospital: 'harrowmere' });
  if (release === undefined) throw new Error(`${set} cannot be built`);
  return release;
});

const plan = compile(releases, { allow: ['draft'] });

/** An invented patient of that hospital, every statement of reasons included. */
export const assessed = (name: string): Assessment =>
  assess(plan, caseAt('harrowmere', name), { reasons: 'all' });

/** The patient after an operation for which no panel names a day. */
export function afterOtherOperation(): Assessment {
  const { facts, ...rest } = caseAt('harrowmere', 'after-operation');
  const changed = { ...facts, 'surgery.procedure': 'other' };
  return assess(plan, { ...rest, facts: changed } as Case, { reasons: 'all' });
}

/** The patient after an operation, with prolonged immobilisation, in bed, as the only reason instead. */
export function inBed(): Assessment {
  const { facts, ...rest } = caseAt('harrowmere', 'after-operation');
  const { 'surgery.ended-at': _ended, 'surgery.procedure': _procedure, ...kept } = facts;
  const { no } = facts['review.keep-reasons'] as { readonly no: readonly string[] };
  const changed = {
    ...kept,
    'indication.reasons': ['immobilisation'],
    'patient.immobility': 'bed-rest',
    'review.keep-reasons': { yes: ['immobilisation'], no: no.filter((code) => code !== 'immobilisation') },
  };
  return assess(plan, { ...rest, facts: changed } as Case, { reasons: 'all' });
}

const adoption = library.hospitals.get('harrowmere')?.adoption?.value;

export const shown: HandbookShown = {
  releases,
  digests: new Map(releases.map((release) => [release.id, digest(release)])),
  ...(adoption && { adoption }),
  controls: new Map(
    [...library.sets.values()].flatMap((set) =>
      [...set.vignettes].flatMap(([rule, { value }]) =>
        value.vignettes.map(({ id, title }) => [`${set.id}/${id}`, { title, rule }] as const),
      ),
    ),
  ),
};

/** Keys whose values are chosen from a closed list, or hold the parts of a page together. */
const CLOSED: ReadonlySet<string> = new Set([
  'id',
  'set',
  'rule',
  'rules',
  'of',
  'fact',
  'parameter',
  'operator',
  'kind',
  'type',
  'status',
  'shape',
  'outcome',
  'check',
  'state',
  'truth',
  'indicator',
  'cause',
  'population',
  'source',
  'derivedFrom',
  'hazards',
  'supersedes',
  'excludedBy',
  'undecided',
  'folded',
  'strongerUndecided',
  'asOf',
  'timeZone',
  'codes',
  'unit',
  'evidence',
  'cautious',
  'key',
  'table',
  'column',
  'condition',
  'from',
  'inputs',
  'open',
  'yes',
  'possible',
  'expected',
  'value',
  'default',
  'staleAfter',
  'language',
  'item',
  'change',
  'severity',
  'likelihood',
  'concludes',
  'nothingLeft',
  'chosen',
  'unlisted',
  'notBefore',
  'field',
  'at',
  'code',
  'controls',
  'in',
  'to',
  'low',
  'high',
]);

/** The same data with something put behind every free text. */
export function withEvery<T>(value: T, suffix: string, key = ''): T {
  if (typeof value === 'string') return (CLOSED.has(key) ? value : value + suffix) as T;
  if (Array.isArray(value)) return value.map((one) => withEvery(one, suffix, key)) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, inner]) => [name, withEvery(inner, suffix, name)]),
  ) as T;
}
