import {
  type Adoption,
  type Evidence,
  type EvidenceStatus,
  type Fact,
  type Hazard,
  type Parameter,
  type Release,
  type Rule,
  type Source,
  STATUSES,
  type Withdrawal,
} from '@dwellset/core';
import { lockedChoices } from '../../choices/allowed.ts';
import { type Uses, usesOfRule, usesOfSet } from '../../choices/uses.ts';
import { type Words, wordsOf } from '../../words.ts';

/** What a handbook is made of. */
export interface HandbookShown {
  /** In the order of the chapters. */
  readonly releases: readonly Release[];
  /** Digests of the releases, by set. */
  readonly digests: ReadonlyMap<string, string>;
  readonly adoption?: Adoption;
  /** Versions that must no longer be used. */
  readonly withdrawals?: readonly Withdrawal[];
  /** Group of facts → heading. */
  readonly groups?: ReadonlyMap<string, string>;
  /** Vignettes that hazards name as controls, as `set/vignette`: their titles and the rule they stand beside. */
  readonly controls?: ReadonlyMap<string, { readonly title: string; readonly rule: string }>;
}

/** A rule, or a set as a whole, that uses something. */
export interface User {
  readonly set: Release;
  readonly rule?: Rule;
  readonly uses: Uses;
}

/** The parts of all releases together; of two entries with one id the first stands. */
export interface Gathered extends HandbookShown {
  readonly words: Words;
  readonly facts: readonly Fact[];
  readonly parameters: readonly Parameter[];
  readonly evidence: readonly Evidence[];
  readonly sources: readonly Source[];
  readonly hazards: readonly Hazard[];
  readonly users: readonly User[];
  /** Local choices that locked rules rest on, with the titles of those rules. */
  readonly locked: ReadonlyMap<string, readonly string[]>;
}

function together<T extends { readonly id: string }>(lists: readonly (readonly T[])[]): T[] {
  const found = new Map<string, T>();
  for (const entry of lists.flat()) if (!found.has(entry.id)) found.set(entry.id, entry);
  return [...found.values()];
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
const sorted = <T extends { readonly id: string }>(lists: readonly (readonly T[])[]): T[] =>
  together(lists).sort((a, b) => compare(a.id, b.id));

export function gathered(shown: HandbookShown): Gathered {
  const { releases } = shown;
  const tables = sorted(releases.map((release) => release.tables));
  return {
    ...shown,
    // In the order of their ids, as all chapters are.
    words: { ...wordsOf(releases), tables: new Map(tables.map((table) => [table.id, table])) },
    facts: together(releases.map((release) => release.facts)),
    parameters: sorted(releases.map((release) => release.parameters)),
    evidence: sorted(releases.map((release) => release.evidence)),
    sources: sorted(releases.map((release) => release.sources)),
    hazards: sorted(releases.map((release) => release.hazards)),
    locked: lockedChoices(releases),
    users: releases.flatMap((set) => [
      { set, uses: usesOfSet(set, set) },
      ...set.rules.map((rule) => ({ set, rule, uses: usesOfRule(rule, set) })),
    ]),
  };
}

/** An entry speaks with the weakest status of its items. */
export const weakest = ({ from }: Evidence): EvidenceStatus =>
  from.reduce<EvidenceStatus>(
    (sofar, { status }) => (STATUSES.indexOf(status) > STATUSES.indexOf(sofar) ? status : sofar),
    'read',
  );

/** Whether nothing better than memory stands behind a rule. */
export const restsOnMemory = ({ evidence }: Rule, all: readonly Evidence[]): boolean =>
  evidence.every((id) =>
    (all.find((entry) => entry.id === id)?.from ?? []).every(({ status }) => status === 'memory'),
  );
