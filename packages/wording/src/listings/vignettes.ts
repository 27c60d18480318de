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
}

/** JSON values as an author would type them, single words without quotation marks. */
function said(value: unknown): string {
  if (value === null || value === undefined) return 'nothing';
  return typeof value === 'string' ? value : JSON.stringify(value);
}

/** Failures in full, the rest counted set by set. */
export function vignettesText(results: readonly VignetteShown[], width?: number): string {
  const columns = usableWidth(width);
  const failed = results.filter(({ mismatches }) => mismatches.length > 0);
  const sets = [...new Set(results.map(({ set }) => set))];
  const failures = failed.map((result) => [
    clean(`${result.path}:${result.range.line}:${result.range.column}`),
    ...wrap(`${result.title} (${result.id})`, columns, '  '),
    ...result.mismatches.flatMap(({ what, expected, received }) =>
      wrap(`${what}: expected ${said(expected)}, came out as ${said(received)}`, columns, '     '),
    ),
  ]);
  const counts = sets.map((set) => {
    const own = results.filter((result) => result.set === set);
    const bad = own.filter((result) => result.mismatches.length > 0).length;
    return `${set}: ${counted(own.length, 'vignette')}, ${bad === 0 ? 'all as expected' : `${bad} not as expected`}`;
  });
  return asText(
    blocks([
      ...failures,
      results.length === 0
        ? ['No vignette was found.']
        : counts.flatMap((line) => wrap(clean(line), columns)),
      cautionLines(cautions, columns),
    ]),
  );
}
