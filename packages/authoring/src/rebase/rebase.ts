import { digest, type Release } from '@dwellset/core';
import { amend } from '../amend/amend.ts';
import { buildRelease } from '../build/buildRelease.ts';
import { closureOf } from '../compare/closure.ts';
import { itemChanges } from '../compare/items.ts';
import type { FieldChange, ItemChange, ReleaseNamed } from '../compare/shape.ts';
import type { Diagnostic } from '../diagnostic.ts';
import type { AmendedSet } from '../documents/amendment.ts';
import type { Library } from '../library/shape.ts';
import { type Piece, piecesOf, standsAt } from './pieces.ts';
import { saysTheSame } from './sameNow.ts';
import type { Because, Rebased, RebasedChange, RebasedSet, Standing } from './shape.ts';

/** Both bases of one set, and what reads otherwise in the second. */
interface Bases {
  readonly was: Release | undefined;
  readonly now: Release | undefined;
  readonly items: readonly ItemChange[];
}

/**
 * Holds a hospital's amendment against the base it was made for and the one that is published now. Both libraries
 * hold the amendment; only the published documents differ. Nothing is decided: each change says what the hospital
 * must look at. `undefined` where the hospital amends nothing.
 */
export function rebase(before: Library, after: Library, hospital: string): Rebased | undefined {
  const amendment = after.hospitals.get(hospital)?.amendment?.value;
  if (amendment === undefined) return undefined;
  const refused = amend(after, hospital, { anyBase: true })?.refused ?? [];
  return {
    hospital,
    organisation: amendment.organisation,
    sets: amendment.amends.map((entry, index) => rebasedSet(entry, index, before, after, refused)),
  };
}

const named = (release: Release | undefined): ReleaseNamed | undefined =>
  release && { version: release.version, digest: digest(release) };

function rebasedSet(
  { set, version, digest: sha, changes }: AmendedSet,
  index: number,
  before: Library,
  after: Library,
  refused: readonly Diagnostic[],
): RebasedSet {
  const [was, now] = [before, after].map((library) => buildRelease(library, set).release);
  const items = was && now ? itemChanges(was, now) : [];
  const [from, to] = [named(was), named(now)];
  const known = new Set((was ?? now)?.rules.map(({ id }) => id));
  const pieces = changes.flatMap((change, at) => piecesOf(change, `/amends/${index}/changes/${at}`));
  return {
    set,
    title: (now ?? was)?.title ?? set,
    ...(from && { before: from }),
    ...(to && { after: to }),
    pinned: from?.version === version && from.digest === sha,
    changes: pieces.map((piece) => rebased(piece, { was, now, items }, refused)),
    newRules: (now?.rules ?? [])
      .filter(({ id }) => !known.has(id))
      .map(({ id, title, locked }) => ({ id, title, locked: locked === true })),
    items,
  };
}

function rebased(piece: Piece, bases: Bases, diagnostics: readonly Diagnostic[]): RebasedChange {
  const { was, now, items } = bases;
  const rule = now?.rules.find(({ id }) => id === piece.item);
  const base = fieldsOf(piece, items);
  const refused = diagnostics
    .filter(({ pointer }) => pointer === piece.pointer || pointer.startsWith(`${piece.pointer}/`))
    .map(({ code, message }) => ({ code, message }));
  const reads = readsOf(piece, bases);
  const judged = judge(piece, bases, base.length > 0 || wasReplaced(piece, was, now), refused, reads);
  return { ...piece, locked: rule?.locked === true, ...judged, base, reads, refused };
}

function judge(
  piece: Piece,
  { was, now }: Bases,
  moved: boolean,
  refused: RebasedChange['refused'],
  reads: readonly string[],
): { readonly standing: Standing; readonly because: readonly Because[] } {
  const there = standsAt(piece, now);
  const isThere = there !== undefined;
  if (piece.kind === 'add') {
    if (isThere && now && saysTheSame(piece, now)) return { standing: 'superfluous', because: ['same-now'] };
    const because: Because[] = [
      ...(isThere ? (['now-exists'] as const) : []),
      ...(refused.length > 0 && !isThere ? (['refused'] as const) : []),
    ];
    if (because.length > 0) return { standing: 'conflict', because };
    return reads.length > 0
      ? { standing: 'look', because: ['reads-changed'] }
      : { standing: 'unchanged', because: [] };
  }
  if (!isThere) {
    return piece.kind === 'switchOff'
      ? { standing: 'superfluous', because: ['nothing-left'] }
      : { standing: 'conflict', because: ['gone'] };
  }
  const sameBefore = was !== undefined && saysTheSame(piece, was);
  if (now && saysTheSame(piece, now) && !sameBefore)
    return { standing: 'superfluous', because: ['same-now'] };
  const because: Because[] = [
    ...(moved ? (['base-changed'] as const) : []),
    ...(refused.length > 0 ? (['refused'] as const) : []),
  ];
  if (because.length > 0) return { standing: 'conflict', because };
  return reads.length > 0
    ? { standing: 'look', because: ['reads-changed'] }
    : { standing: 'unchanged', because: [] };
}

/** What of the item itself reads otherwise: a rule, a choice with its range and positions, a cell, a stock list. */
function fieldsOf({ kind, item }: Piece, items: readonly ItemChange[]): FieldChange[] {
  const [id, row, column] = item.split('/');
  const fields = (of: ItemChange['kind'], name: string): readonly FieldChange[] =>
    items.find((one) => one.kind === of && one.id === name)?.fields ?? [];
  if (kind === 'set') {
    return row === undefined
      ? [...fields('local choice', item)]
      : fields('table', id!).filter(({ field }) => field === `${row}/${column}` || !field.includes('/'));
  }
  if (kind !== 'stock') return [...fields('rule', item)];
  return items
    .filter((one) => one.kind === 'stock' && one.id.startsWith(`${item}/`))
    .flatMap((one): readonly FieldChange[] =>
      one.change === 'changed'
        ? one.fields.map((field) => ({ ...field, field: `${one.id} ${field.field}` }))
        : [{ field: `${one.id} ${one.change}`, wording: false }],
    );
}

/** Something stands there in both, and in the old base it did not, or the other way round. */
const wasReplaced = (piece: Piece, was: Release | undefined, now: Release | undefined): boolean =>
  piece.kind !== 'add' && standsAt(piece, was) === undefined && standsAt(piece, now) !== undefined;

/** What a rule reads that is otherwise in the new base; the rule itself is told apart from it. */
function readsOf({ kind, item, local }: Piece, { was, now, items }: Bases): string[] {
  if (kind === 'set' || kind === 'stock' || now === undefined) return [];
  const moved = items
    .filter(({ change, fields }) => change !== 'changed' || fields.some(({ wording }) => !wording))
    .map((one) => `${one.kind} ${one.id}`);
  const releases = [was, now].flatMap((release) => release ?? []);
  const own = kind === 'replace' || kind === 'add' ? [local as Release['rules'][number]] : [];
  const read = new Set(
    releases.flatMap((release) =>
      [...own, ...release.rules.filter(({ id }) => id === item)].flatMap((rule) => [
        ...closureOf(release, rule).items,
      ]),
    ),
  );
  return moved.filter((name) => name !== `rule ${item}` && read.has(name));
}
