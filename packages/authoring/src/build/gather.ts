import { type AmendmentRecord, canonicalJson, digest, type Release, type TableCell } from '@dwellset/core';
import type { Parts } from './parts.ts';
import { type Missing, type Used, usedBySet } from './used.ts';

export interface Gathered {
  readonly release?: Release;
  /** What the set refers to and nobody defines. */
  readonly missing: readonly (
    | Missing
    | { readonly kind: 'code list' | 'evidence' | 'source' | 'hazard' | 'rule set'; readonly id: string }
  )[];
}

const byId = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** A set and every set whose conclusions it reads, directly or through another; nothing where one is missing. */
export function gatherWithRead(parts: Parts, amendment?: AmendmentRecord): readonly Release[] | undefined {
  const { release } = gather(parts, amendment);
  if (release === undefined) return undefined;
  const found = new Map([[release.id, release]]);
  for (const { id } of release.reads ?? []) {
    const other = parts.others(id);
    const read = other && gatherWithRead(other.parts, other.record);
    if (read === undefined) return undefined;
    for (const one of read) found.set(one.id, one);
  }
  return [...found.values()];
}

/**
 * Freezes what a set uses, and nothing else, into a release. Sets whose conclusions it reads are pinned; `above` are
 * those on whose behalf this one is gathered, so that a circle ends.
 */
export function gather(parts: Parts, amendment?: AmendmentRecord, above: readonly string[] = []): Gathered {
  const used = usedBySet(parts);
  const missing: Gathered['missing'][number][] = [...used.missing];
  const pick = <T>(
    kind: (typeof missing)[number]['kind'],
    from: ReadonlyMap<string, T>,
    ids: Iterable<string>,
  ): T[] =>
    [...new Set(ids)].sort(byId).flatMap((id) => {
      const found = from.get(id);
      if (found === undefined) missing.push({ kind, id });
      return found === undefined ? [] : [found];
    });
  const evidence = pick('evidence', parts.evidence, evidenceIds(parts, used));
  const codes = [...codeLists(parts, used)].sort(byId);
  pick('code list', parts.codes, codes);
  const { ruleSet } = parts;
  const reads = [...used.sets].sort(byId).flatMap((id) => {
    const other = [...above, ruleSet.id].includes(id) ? undefined : parts.others(id);
    const { release } = other ? gather(other.parts, other.record, [...above, ruleSet.id]) : {};
    if (release === undefined) missing.push({ kind: 'rule set', id });
    return release === undefined ? [] : [{ id, version: release.version, digest: digest(release) }];
  });
  const draft: Release = {
    $schema: 'urn:dwellset:release:1',
    id: ruleSet.id,
    version: ruleSet.version,
    status: ruleSet.status,
    ...(ruleSet.withdrawn && { withdrawn: ruleSet.withdrawn }),
    language: ruleSet.language,
    title: ruleSet.title,
    intendedUse: ruleSet.intendedUse,
    users: ruleSet.users,
    exclusions: ruleSet.exclusions,
    limits: ruleSet.limits,
    ...(ruleSet.effectivePeriod && { effectivePeriod: ruleSet.effectivePeriod }),
    shape: ruleSet.shape,
    ...(ruleSet.population && { population: ruleSet.population }),
    ...(ruleSet.scope && { scope: ruleSet.scope }),
    ...(ruleSet.conclusions && { conclusions: ruleSet.conclusions.map(({ id, title }) => ({ id, title })) }),
    ...(ruleSet.defaultConclusion && {
      defaultConclusion: { id: ruleSet.defaultConclusion.id, title: ruleSet.defaultConclusion.title },
    }),
    conditions: Object.fromEntries([...parts.conditions].filter(([name]) => used.conditions.has(name))),
    facts: [...parts.facts.values()].filter(({ id }) => used.facts.has(id)),
    codes: Object.fromEntries(codes.map((name) => [name, parts.codes.get(name) ?? {}])),
    parameters: [...used.parameters].sort(byId).flatMap((id) => parts.parameters.get(id) ?? []),
    tables: [...used.tables].sort(byId).flatMap((id) => parts.tables.get(id) ?? []),
    stock: parts.stock,
    rules: parts.rules,
    evidence,
    sources: pick(
      'source',
      parts.sources,
      evidence.flatMap(({ from }) => from.map(({ source }) => source)),
    ),
    hazards: pick(
      'hazard',
      parts.hazards,
      parts.rules.flatMap(({ hazards }) => hazards ?? []),
    ),
    ...(amendment && { amendment }),
    ...(reads.length > 0 && { reads }),
  };
  if (missing.length > 0) return { missing };
  // What is built must be what is read back from the file of the release, to the order of its keys.
  return { release: JSON.parse(canonicalJson(draft)) as Release, missing };
}

function codeLists(parts: Parts, used: Used): Set<string> {
  const lists = new Set<string>();
  for (const id of used.facts) {
    const fact = parts.facts.get(id);
    for (const typed of [fact, ...Object.values(fact?.item ?? {})]) add(lists, typed?.codes);
  }
  for (const id of used.parameters) add(lists, parts.parameters.get(id)?.codes);
  for (const id of used.tables) {
    const table = parts.tables.get(id);
    add(lists, table?.key);
    for (const column of Object.values(table?.columns ?? {})) add(lists, column.codes);
  }
  return lists;
}

function add(to: Set<string>, name: string | undefined): void {
  if (name !== undefined) to.add(name);
}

const ofCell = (cell: TableCell): string[] => [
  ...(cell.evidence ?? []),
  ...(cell.positions ?? []).flatMap(({ evidence }) => evidence),
];

/** Evidence of the rules and of the choices they use, and what that evidence derives from. */
function evidenceIds(parts: Parts, used: Used): Set<string> {
  const ids = new Set(parts.rules.flatMap(({ evidence }) => evidence));
  for (const id of used.parameters) {
    for (const { evidence } of parts.parameters.get(id)?.positions ?? [])
      for (const e of evidence) ids.add(e);
  }
  for (const id of used.tables) {
    for (const row of Object.values(parts.tables.get(id)?.rows ?? {})) {
      for (const cell of Object.values(row)) for (const e of ofCell(cell)) ids.add(e);
    }
  }
  // A set grows while it is walked, so this follows chains of derived evidence to their end.
  for (const id of ids) for (const origin of parts.evidence.get(id)?.derivedFrom ?? []) ids.add(origin);
  return ids;
}
