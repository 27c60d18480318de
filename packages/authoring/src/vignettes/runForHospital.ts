import type { AmendmentRecord, Case, Release } from '@dwellset/core';
import { type LockedLoss, proveLocked } from '../amend/proveLocked.ts';
import { releasesFor } from '../build/buildRelease.ts';
import { closureOf } from '../compare/closure.ts';
import { differences, type Pair, pairOf } from '../compare/differences.ts';
import { isSide, type Side } from '../compare/shape.ts';
import type { Library } from '../library/shape.ts';
import type { Mismatch } from './expectations.ts';
import { runVignettes, type VignetteResult, vignettesOf } from './runVignettes.ts';

export type LocalChange = AmendmentRecord['changes'][number];

/** A published vignette on the rules as a hospital has amended them. */
export interface LocalVignetteResult extends VignetteResult {
  /**
   * It comes out as published without the amendment, and otherwise with it, and these are the changes that what came
   * out otherwise reads. The published expectation does not bind this hospital; its reasons do.
   */
  readonly changedBy?: readonly LocalChange[];
}

/**
 * Runs the published vignettes on a hospital's rules. One that comes out otherwise has failed if it fails as published
 * too, if no change of the amendment accounts for it, or if it stands beside a locked rule that says less than before.
 * Everything else is the hospital's own doing, change by change.
 */
export function runForHospital(
  library: Library,
  { hospital, set: only }: { readonly hospital: string; readonly set?: string },
): LocalVignetteResult[] {
  const lost = new Map(
    proveLocked(library, hospital, only).lost.map((one) => [nameOf(one.set, one.rule, one.vignette), one]),
  );
  return [...library.sets.values()].flatMap((set) => {
    if (only !== undefined && set.id !== only) return [];
    const local = runVignettes(library, { set: set.id, hospital }).map((result) =>
      withLoss(result, lost.get(nameOf(result.set, result.rule, result.id))),
    );
    if (local.every(({ passed }) => passed)) return local;
    const published = runVignettes(library, { set: set.id });
    const cases = vignettesOf(set).map((ready) => ready.case);
    const before = releasesFor(library, set.id);
    const after = releasesFor(library, set.id, { hospital });
    if (!isSide(before) || !isSide(after)) return local;
    const pair = pairOf(before, after);
    return local.map((result, at): LocalVignetteResult => {
      if (result.passed || !published[at]!.passed) return result;
      if (lost.has(nameOf(result.set, result.rule, result.id))) return result;
      const changedBy = accountFor(result.mismatches, cases[at]!, pair, [before, after]);
      return changedBy.length === 0 ? result : { ...result, changedBy };
    });
  });
}

const nameOf = (set: string, rule: string, vignette: string): string => `${set}/${rule}/${vignette}`;

/** What a locked rule no longer says counts, whether or not the vignette looks there. */
function withLoss(result: VignetteResult, loss: LockedLoss | undefined): VignetteResult {
  if (loss === undefined) return result;
  const mismatch = { what: `locked.${loss.rule}`, expected: loss.published, received: loss.amended };
  return { ...result, passed: false, mismatches: [...result.mismatches, mismatch] };
}

/** The changes that are read by the rules that came out otherwise, in the order of the amendment. */
function accountFor(
  mismatches: readonly Mismatch[],
  patient: Case,
  pair: Pair,
  sides: readonly [Side, Side],
): LocalChange[] {
  const ids = new Set(sides.flatMap(([{ rules }]) => rules.map(({ id }) => id)));
  const others = mismatches.map(({ what }) => what).filter((what) => !OF_RULES.test(what));
  // Of a stock list only what came out otherwise on its own items.
  const isMeant = ({ item }: { readonly item?: string }): boolean =>
    others.some((what) => !OF_STOCK.test(what) || item?.startsWith(`${what.split('.')[1]}/`) === true);
  const subjects = new Set([
    ...(others.length === 0 ? [] : differences(pair, patient).differ.filter(isMeant)).map(
      ({ subject }) => subject,
    ),
    ...mismatches.flatMap(({ what, expected, received }) =>
      what === 'speaks' ? onOneSide(expected, received) : [what.split('.')[1] ?? ''],
    ),
    ...askedBy(otherQuestions(mismatches), sides),
  ]);
  const rules = [...subjects].filter((subject) => ids.has(subject));
  const read = new Set(sides.flatMap((side) => rules.flatMap((rule) => [...readBy(side, rule)])));
  const made = sides[1].flatMap(({ amendment }) => amendment?.changes ?? []);
  const found = made.filter(({ item }) => read.has(item) || read.has(item.split('/')[0]!));
  return [...new Map(found.map((change) => [`${change.item} ${change.change}`, change])).values()];
}

/** What an expectation says of one stock list, and of rules by name; else all that came out otherwise counts. */
const OF_STOCK = /^(options|remarks|chosen|first|provisional|nothingLeft)\./;
const OF_RULES = /^(rules|summary|deciding)\.|^(speaks|ask)$/;

function onOneSide(expected: unknown, received: unknown): string[] {
  const [before, after] = [expected, received].map((list) => (Array.isArray(list) ? list.map(String) : []));
  return [...before!, ...after!].filter((one) => !before!.includes(one) || !after!.includes(one));
}

/** Facts that are asked for, or that decide, on one side only. */
const otherQuestions = (mismatches: readonly Mismatch[]): ReadonlySet<string> =>
  new Set(
    mismatches
      .filter(({ what }) => what === 'ask' || what.startsWith('deciding.'))
      .flatMap(({ expected, received }) => onOneSide(expected, received)),
  );

const askedBy = (facts: ReadonlySet<string>, sides: readonly [Side, Side]): string[] =>
  facts.size === 0
    ? []
    : sides.flatMap(([release]) =>
        release.rules
          .filter((rule) => [...closureOf(release, rule).facts.keys()].some((fact) => facts.has(fact)))
          .map(({ id }) => id),
      );

/** Ids of everything that a rule reads, in the sets whose conclusions it reads as well. */
function readBy([release, ...others]: Side, rule: string): Set<string> {
  const read = new Set<string>();
  const add = (of: Release, id: string): void => {
    const found = of.rules.find((one) => one.id === id);
    if (found === undefined) return;
    const { items, facts } = closureOf(of, found);
    for (const item of items) read.add(item.slice(item.lastIndexOf(' ') + 1).split('/')[0]!);
    if (of === release && [...facts.keys()].some((fact) => fact.startsWith('conclusion.'))) {
      for (const other of others) for (const one of other.rules) add(other, one.id);
    }
  };
  add(release, rule);
  return read;
}
