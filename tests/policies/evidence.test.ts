/// <reference types="node" />
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type DocumentOf, type Library, readLibrary } from '@dwellset/authoring';
import { type EvidenceStatus, STATUSES } from '@dwellset/core';
import { describe, expect, it } from 'vitest';

interface Row {
  readonly id: string;
  readonly weakest: EvidenceStatus;
  /** Where the sources of a row are not all known alike; else the weakest. */
  readonly strongest?: EvidenceStatus;
}

/** How many rows may wait for a rule; it only ever goes down. */
const MOST_AWAITING = 0;

const json = (name: string): unknown => JSON.parse(readFileSync(new URL(name, import.meta.url), 'utf8'));
const rows = Object.values(json('evidence-rows.json') as Record<string, readonly Row[]>).flat();
const awaiting = Object.values(json('awaiting-rule.json') as Record<string, readonly string[]>).flat();

const folder = fileURLToPath(new URL('../../policies/', import.meta.url));
const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .map((path) => path.replaceAll('\\', '/'))
  .filter((path) => path.endsWith('.json') && !path.startsWith('node_modules'));
const library = readLibrary(new Map(paths.map((path) => [path, readFileSync(folder + path, 'utf8')])));
const left = library.documents
  .filter(({ kind, sound }) => kind === 'not-carried' && sound)
  .flatMap(({ source }) => (source.value as DocumentOf<'not-carried'>).rows);

/** Everything that a rule, a position or a cell of a table rests on, and what that in turn derives from. */
function reached({ sets, parameters, tables, evidence }: Library): ReadonlySet<string> {
  const cells = [...tables.values()]
    .flatMap(({ value }) => Object.values(value.rows))
    .flatMap((row) => Object.values(row));
  const positions = [
    ...[...parameters.values()].flatMap(({ value }) => value.positions),
    ...cells.flatMap((cell) => cell.positions ?? []),
  ];
  const ids = new Set([
    ...[...sets.values()].flatMap(({ rules }) => [...rules.values()].flatMap(({ value }) => value.evidence)),
    ...positions.flatMap((position) => position.evidence),
    ...cells.flatMap((cell) => cell.evidence ?? []),
  ]);
  // A set hands out what is added to it while it is walked, so this follows chains to their end.
  for (const id of ids) for (const origin of evidence.get(id)?.value.derivedFrom ?? []) ids.add(origin);
  return ids;
}

const weakness = (status: EvidenceStatus): number => STATUSES.indexOf(status);
const sorted = (ids: Iterable<string>): string[] => [...ids].sort();

describe('every published row that the rules could rest on', () => {
  it('is listed once', () => {
    expect(rows.length).toBeGreaterThan(600);
    expect(new Set(rows.map(({ id }) => id)).size).toBe(rows.length);
  });

  it('is evidence or is left out for a reason, and never both', () => {
    const out = new Set(left.map(({ id }) => id));
    expect(rows.filter(({ id }) => library.evidence.has(id) === out.has(id)).map(({ id }) => id)).toEqual([]);
  });

  it('is left out only where it is listed', () => {
    const listed = new Set(rows.map(({ id }) => id));
    expect(left.filter(({ id }) => !listed.has(id))).toEqual([]);
  });

  it('is left out as unclear in at most a tenth of all', () => {
    const unclear = left.filter(({ why }) => why === 'unclear');
    expect(unclear.length).toBeLessThanOrEqual(rows.length / 10);
  });
});

describe('every statement of evidence', () => {
  it('restates a listed row, or our choice between positions that conflict', () => {
    const listed = new Set(rows.map(({ id }) => id));
    const others = sorted(library.evidence.keys()).filter((id) => !listed.has(id));
    expect(others.filter((id) => !/^K-\d+$/.test(id))).toEqual([]);
  });

  it('is reached from a rule or a choice, but for those that wait for a rule', () => {
    const used = reached(library);
    const unreached = [...library.evidence.keys()].filter((id) => !used.has(id));
    expect(sorted(unreached)).toEqual(sorted(awaiting));
    expect(unreached.length).toBeLessThanOrEqual(MOST_AWAITING);
  });

  it('is as a whole known no better than its row', () => {
    const raised = rows.filter(({ id, weakest }) => {
      const from = library.evidence.get(id)?.value.from ?? [];
      return from.length > 0 && Math.max(...from.map(({ status }) => weakness(status))) < weakness(weakest);
    });
    expect(raised.map(({ id }) => id)).toEqual([]);
  });

  it('holds no single source that is known better than the best of its row', () => {
    const raised = rows.flatMap(({ id, weakest, strongest = weakest }) =>
      (library.evidence.get(id)?.value.from ?? [])
        .filter(({ status }) => weakness(status) < weakness(strongest))
        .map(({ source }) => `${id}: ${source}`),
    );
    expect(raised).toEqual([]);
  });
});
