import { digest, type Release } from '@dwellset/core';
import { type Amended, amend } from '../amend/amend.ts';
import { mistake } from '../amend/refusals.ts';
import type { Diagnostic } from '../diagnostic.ts';
import type { Library, LibrarySet } from '../library/shape.ts';
import { gather, gatherWithRead } from './gather.ts';
import { partsOf } from './parts.ts';

/** A release with its digest, or every reason why there is none. */
export interface Built {
  readonly release?: Release;
  readonly digest?: string;
  readonly refused?: readonly Diagnostic[];
}

export interface BuildOptions {
  /** Folder name of the hospital whose amendment is applied. */
  readonly hospital?: string;
}

/** Freezes one set: as published, or as a hospital has amended it. Same documents, same bytes. */
export function buildRelease(library: Library, setId: string, { hospital }: BuildOptions = {}): Built {
  const set = library.sets.get(setId);
  if (set === undefined)
    return {
      refused: [nowhere(`${setId}/ruleset.json`, 'unknown-set', `there is no sound rule set \`${setId}\``)],
    };
  const broken = unsoundMembers(set);
  if (broken.length > 0) return { refused: broken };
  const parts = partsOf(library, set);
  const base = gather(parts);
  if (base.release === undefined) return { refused: missingIn(set, base.missing) };
  if (hospital === undefined) return { release: base.release, digest: digest(base.release) };
  const refused = unknownHospital(library, hospital);
  if (refused) return { refused: [refused] };
  const amended = amendOnce(library, hospital);
  const part = amended?.sets.get(setId);
  if (amended === undefined || part === undefined)
    return { release: base.release, digest: digest(base.release) };
  if (amended.refused.length > 0) return { refused: amended.refused };
  // Unchanged itself, it may still read the conclusion of a set that the hospital changed.
  const effective = gather(part.parts, part.record);
  if (effective.release === undefined) return { refused: missingIn(set, effective.missing) };
  return { release: effective.release, digest: digest(effective.release) };
}

/** A set with every set whose conclusions it reads: what has to be compiled together. Itself first. */
export function releasesFor(library: Library, setId: string, options: BuildOptions = {}): readonly Release[] {
  const set = library.sets.get(setId);
  if (set === undefined || buildRelease(library, setId, options).release === undefined) return [];
  const { hospital } = options;
  const part = hospital === undefined ? undefined : amendOnce(library, hospital)?.sets.get(setId);
  return gatherWithRead(part?.parts ?? partsOf(library, set), part?.record) ?? [];
}

/** A library never changes, so one answer for each hospital holds for as long as it lives. */
const amendments = new WeakMap<Library, Map<string, Amended | undefined>>();

function amendOnce(library: Library, hospital: string): Amended | undefined {
  const known = amendments.get(library) ?? new Map<string, Amended | undefined>();
  amendments.set(library, known);
  if (!known.has(hospital)) known.set(hospital, amend(library, hospital));
  return known.get(hospital);
}

function unsoundMembers({ id, ruleSet, rules, stock }: LibrarySet): Diagnostic[] {
  const { document, value } = ruleSet;
  const missing = (pointer: string, what: string, file: string) =>
    mistake(document, pointer, 'missing-document', `${what} has no sound document at \`${file}\``);
  return [
    ...value.rules.flatMap((rule, index) =>
      rules.get(rule)?.value.id === rule
        ? []
        : [missing(`/rules/${index}`, `the rule \`${rule}\``, `${id}/${rule}.rule.json`)],
    ),
    ...(value.stock ?? []).flatMap((kind, index) =>
      stock.get(kind)?.value.of === kind
        ? []
        : [missing(`/stock/${index}`, `the stock list \`${kind}\``, `${id}/stock/${kind}.json`)],
    ),
  ];
}

const missingIn = (
  { id, ruleSet }: LibrarySet,
  missing: readonly { kind: string; id: string }[],
): Diagnostic[] =>
  missing.map(({ kind, id: unknown }) =>
    mistake(
      ruleSet.document,
      '',
      'missing-reference',
      `\`${id}\` refers to the ${kind} \`${unknown}\`, which nobody soundly defines`,
    ),
  );

/** An amendment that cannot be read must not turn into the published set. */
function unknownHospital(library: Library, hospital: string): Diagnostic | undefined {
  const path = `hospitals/${hospital}/amendment.json`;
  const document = library.documents.find((other) => other.path === path);
  if (document === undefined) {
    if (library.hospitals.has(hospital)) return undefined;
    return nowhere(path, 'unknown-hospital', `there is no hospital \`${hospital}\``);
  }
  if (library.hospitals.get(hospital)?.amendment?.document === document) return undefined;
  return mistake(
    document,
    '',
    'unsound-document',
    `the amendment of \`${hospital}\` cannot be read, so nothing is built from it`,
  );
}

const nowhere = (path: string, code: string, message: string): Diagnostic => ({
  code,
  severity: 'error',
  path,
  pointer: '',
  range: { line: 1, column: 1, endLine: 1, endColumn: 1 },
  message,
});
