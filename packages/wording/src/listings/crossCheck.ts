import { clean } from '../layout.ts';
import { counted } from '../words.ts';

/** What the second engine made of one case. */
export interface CrossCheckShown {
  /** Tells several cases apart. */
  readonly name?: string;
  readonly agrees: boolean;
  readonly compared: number;
  readonly disagreements: readonly {
    readonly set: string;
    readonly rule?: string;
    readonly what: string;
    readonly core: string;
    readonly second: string;
  }[];
}

/** Agreement in one line; every disagreement in one of its own, neither side preferred. */
export function crossCheckText(result: CrossCheckShown): string {
  const name = result.name === undefined ? '' : `${result.name}: `;
  const compared = counted(result.compared, 'result');
  if (result.agrees)
    return clean(`${name}cross-check: ${compared} compared, the two engines agree`).concat('\n');
  const lines = result.disagreements.map(({ set, rule, what, core, second }) => {
    const place = rule === undefined ? set : `${set}/${rule}`;
    return `  ${place}, ${what}: ${core} on the one engine, ${second} on the other`;
  });
  const heading = `${name}cross-check: THE TWO ENGINES DISAGREE; do not rely on this assessment`;
  return `${[heading, ...lines].map(clean).join('\n')}\n`;
}
