import type { Wrong } from './agreement.ts';
import { WAYS } from './laps.ts';
import type { Sample } from './measure.ts';
import type { Measured } from './measured.ts';

const FROM_OBJECTS = 'Dwellset, many cases at once, read from objects';

const ROWS: readonly string[] = [
  WAYS.rulesEngine,
  WAYS.logicEngine,
  WAYS.written,
  WAYS.printed,
  WAYS.explained,
  WAYS.deciding,
  WAYS.spoken,
  WAYS.reasons,
  WAYS.applying,
  WAYS.judged,
  FROM_OBJECTS,
  WAYS.columns,
  WAYS.bits,
];

/** Two significant digits: a third would say more than such a measurement knows. */
export function ratio(value: number): string {
  const digits = Number(value.toPrecision(2));
  return digits.toLocaleString('en', { maximumFractionDigits: 3 });
}

/** What there is of is not rounded away. */
const percent = (share: number): string =>
  share === 0 ? '0' : share < 0.001 ? '< 0.1 %' : `${(100 * share).toFixed(1)} %`;

const speedOf = (name: string, { samples }: Measured): string => {
  const base = samples.get(WAYS.rulesEngine)!.median;
  const own = name === FROM_OBJECTS ? readAndJudged(samples) : samples.get(name)?.median;
  return own === undefined ? '–' : ratio(base / own);
};

const readAndJudged = (samples: Measured['samples']): number =>
  samples.get(WAYS.reading)!.median + samples.get(WAYS.columns)!.median;

const peerOf = (name: string, { wrong }: Measured): Wrong | undefined =>
  Object.entries(wrong).find(([peer]) => name.startsWith(peer))?.[1];

const SHARES: readonly (keyof Wrong)[] = ['firesOnUndetermined', 'hidesUndetermined', 'hidesDetermined'];

/** One line a way of judging: its speed against json-rules-engine for each set, and what it says wrongly or not at all. */
export function markdown(measured: readonly Measured[]): string {
  const speeds = measured.map(({ name }) => name);
  const shares = ['speaks, undetermined', 'silent, undetermined', 'silent, applies'];
  const [small, last] = [measured[0]!, measured.at(-1)!];
  const sharesOf = (name: string): string[] =>
    SHARES.map((share) => [small, last].map((one) => percent(peerOf(name, one)?.[share] ?? 0)).join(' / '));
  const rows = ROWS.map((name) => [
    name,
    ...measured.map((one) => speedOf(name, one)),
    ...(name === WAYS.bits || name === WAYS.written ? ['–', '–', '–'] : sharesOf(name)),
  ]);
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  const head = ['', ...speeds, ...shares];
  return [line(head), line(head.map((_, at) => (at === 0 ? '---' : '--:'))), ...rows.map(line)].join('\n');
}

/** The same for a terminal, in microseconds a case with the middle half of all rounds. */
export function plainTable({ name, samples, wrong, undetermined, many }: Measured): string {
  const timeOf = ({ low, median, high }: Sample): string =>
    `${ratio(median).padStart(9)} µs  (${ratio(low)} to ${ratio(high)})`;
  const lines = [...samples.values()].map((sample) => `  ${sample.name.padEnd(62)} ${timeOf(sample)}`);
  for (const { cases, read, judge } of many) {
    lines.push(`  ${`${cases.toLocaleString('en')} cases at once, read before`.padEnd(62)} ${timeOf(judge)}`);
    lines.push(
      `  ${`${cases.toLocaleString('en')} cases at once, their reading`.padEnd(62)} ${timeOf(read)}`,
    );
  }
  for (const [peer, shares] of Object.entries(wrong)) {
    const words = [...SHARES, 'firesOnDetermined' as const].map((share) => percent(shares[share]));
    lines.push(
      `  ${peer}: speaks on ${words[0]} that are undetermined, hides ${words[1]} that are and ${words[2]} that apply, speaks on ${words[3]} that do not apply`,
    );
  }
  return [`${name}: ${percent(undetermined)} of all outcomes are undetermined`, ...lines].join('\n');
}
