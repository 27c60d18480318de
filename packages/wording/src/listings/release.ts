import { cautionLines, cautions } from '../cautions.ts';
import { asText, blocks, clean, usableWidth, wrap } from '../layout.ts';
import { counted } from '../words.ts';

export interface GateShown {
  readonly gate: string;
  readonly outcome: 'passed' | 'refused' | 'accepted';
  readonly findings: readonly string[];
  readonly reason?: string;
}

const MOST = 10;

/** The line of a change log; a star marks what changes an outcome. */
export const logLine = (digest: string, bump: string | undefined, outcomes: number): string =>
  bump === undefined
    ? `- First release, digest ${digest.slice(0, 12)}.`
    : `- ${outcomes > 0 ? '★ ' : ''}Released with ${counted(outcomes, 'changed outcome')}, digest ${digest.slice(0, 12)}.`;

function endWords(written: string | undefined, refused: boolean): string {
  if (written !== undefined) return `Written: ${written}`;
  return refused ? 'Refused: nothing was written.' : 'It could be released. Nothing was written.';
}

/** What each gate found, and what became of the release. */
export function releaseReport(
  name: string,
  gates: readonly GateShown[],
  { written, refused }: { readonly written?: string | undefined; readonly refused: boolean },
  width?: number,
): string {
  const columns = usableWidth(width);
  return asText(
    blocks([
      wrap(`Release ${name}`, columns),
      gates.flatMap(({ gate, outcome, findings, reason }) => [
        ...wrap(
          `${gate}: ${outcome}${findings.length > 0 ? `, ${counted(findings.length, 'finding')}` : ''}${reason === undefined ? '' : ` – ${reason}`}`,
          columns,
          '  ',
          '     ',
        ),
        ...findings.slice(0, MOST).flatMap((finding) => wrap(clean(finding), columns, '     ', '       ')),
        ...(findings.length > MOST ? [`     and ${findings.length - MOST} more`] : []),
      ]),
      wrap(endWords(written, refused), columns),
      cautionLines(cautions, columns),
    ]),
  );
}
