import type { AmendmentRecord } from '@dwellset/core';
import { cautionLines, cautions } from '../cautions.ts';
import { asText, blocks, clean, usableWidth, wrap } from '../layout.ts';
import { counted } from '../words.ts';

/** One invented case and what came of it. */
export interface VignetteShown {
  readonly set: string;
  readonly id: string;
  readonly title: string;
  readonly path: string;
  readonly range: { readonly line: number; readonly column: number };
  readonly mismatches: readonly {
    readonly what: string;
    readonly expected: unknown;
    readonly received: unknown;
  }[];
  /** Changes of a hospital that account for it. */
  readonly changedBy?: readonly LocalChange[];
}

type LocalChange = AmendmentRecord['changes'][number];

/** JSON values as an author would type them, single words without quotation marks. */
function said(value: unknown): string {
  if (value === null || value === undefined) return 'nothing';
  return typeof value === 'string' ? value : JSON.stringify(value);
}

const mismatchLines = ({ mismatches }: VignetteShown, width: number): string[] =>
  mismatches.flatMap(({ what, expected, received }) =>
    wrap(`${what}: expected ${said(expected)}, came out as ${said(received)}`, width, '     '),
  );

const titleWords = ({ title, set, id }: VignetteShown): string => `${title} (${set}/${id})`;

/** One change of a hospital: what it is, why, and the published vignettes that it makes come out otherwise. */
function changeBlock(change: LocalChange, results: readonly VignetteShown[], width: number): string[] {
  const { item, change: kind, from, to, reason } = change;
  const what = kind === 'set' ? `${item}: ${from ?? 'nothing'}, here ${to ?? 'nothing'}` : `${item}: ${kind}`;
  return [
    ...wrap(clean(`${what} – ${reason}`), width, '', '  '),
    ...results.flatMap((result) => [
      ...wrap(clean(titleWords(result)), width, '  ', '     '),
      ...mismatchLines(result, width),
    ]),
  ];
}

/** Changes that account for a result together stand together, in the order of the amendment. */
function changedBlocks(results: readonly VignetteShown[], width: number): string[][] {
  const groups = new Map<string, VignetteShown[]>();
  for (const result of results) {
    const key = JSON.stringify(result.changedBy);
    groups.set(key, [...(groups.get(key) ?? []), result]);
  }
  return [...groups.values()].map((own) => {
    const changes = own[0]?.changedBy ?? [];
    return changes.flatMap((change, at) => changeBlock(change, at === changes.length - 1 ? own : [], width));
  });
}

const CHANGED = 'Changed by local policy';
const CHANGED_MEANS =
  'These come out as published without the amendment, and otherwise with it. Nobody has said yet that this is what the hospital wants: read each beside its reason.';

function countWords(results: readonly VignetteShown[], set: string): string {
  const own = results.filter((result) => result.set === set);
  const changed = own.filter(({ changedBy }) => changedBy !== undefined).length;
  const bad = own.filter(({ mismatches, changedBy }) => mismatches.length > 0 && !changedBy).length;
  const parts = [
    ...(bad === 0 ? [] : [`${bad} not as expected`]),
    ...(changed === 0 ? [] : [`${changed} changed by local policy`]),
  ];
  const rest = changed === 0 ? 'all as expected' : 'the others as expected';
  return `${set}: ${counted(own.length, 'vignette')}, ${bad === 0 ? [...parts, rest].join(', ') : parts.join(', ')}`;
}

/** Failures in full, then what a hospital has changed, the rest counted set by set. */
export function vignettesText(results: readonly VignetteShown[], width?: number): string {
  const columns = usableWidth(width);
  const changed = results.filter(({ changedBy }) => changedBy !== undefined);
  const failed = results.filter(({ mismatches, changedBy }) => mismatches.length > 0 && !changedBy);
  const sets = [...new Set(results.map(({ set }) => set))];
  const failures = failed.map((result) => [
    clean(`${result.path}:${result.range.line}:${result.range.column}`),
    ...wrap(`${result.title} (${result.id})`, columns, '  '),
    ...mismatchLines(result, columns),
  ]);
  const counts = sets.map((set) => countWords(results, set));
  return asText(
    blocks([
      ...failures,
      ...(changed.length === 0
        ? []
        : [[CHANGED, ...wrap(CHANGED_MEANS, columns)], ...changedBlocks(changed, columns)]),
      results.length === 0
        ? ['No vignette was found.']
        : counts.flatMap((line) => wrap(clean(line), columns)),
      cautionLines(cautions, columns),
    ]),
  );
}
