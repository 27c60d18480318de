import type { Indicator, Release } from '@dwellset/core';
import { cautionLines, cautions } from '../cautions.ts';
import { asText, blocks, usableWidth, wrap } from '../layout.ts';
import { counted, type Words, wordsOf } from '../words.ts';
import { perDayWords, shareWords, WARD_CAUTION } from './ward.ts';

/** What a plan says over the days of a ward, as the authoring package counts it. */
export interface BurdenShown {
  readonly patients: number;
  readonly patientDays: number;
  readonly advice: number;
  readonly repeats: number;
  readonly byIndicator: Readonly<Record<Indicator, number>>;
  readonly rules: readonly {
    readonly set: string;
    readonly rule: string;
    readonly days: number;
    readonly repeats: number;
  }[];
  readonly questions: number;
  readonly applies: number;
  readonly undetermined: number;
  readonly byDay: readonly { readonly patients: number; readonly advice: number }[];
}

export interface BurdenTextOptions {
  readonly ward: string;
  readonly seed: number;
  readonly width?: number;
  readonly releases?: readonly Release[];
  /** Names of the two sides where there are two. */
  readonly sides: readonly { readonly name: string; readonly burden: BurdenShown }[];
}

const INDICATORS: readonly Indicator[] = ['critical', 'warning', 'info'];
const MOST_RULES = 15;

const perDay = (count: number, { patientDays }: BurdenShown): string => perDayWords(count, patientDays);

/** A table with one column a side, figures under each other. */
function table(rows: readonly (readonly [string, readonly string[]])[], width: number): string[] {
  const figures = Math.max(8, ...rows.flatMap(([, cells]) => cells.map((cell) => cell.length + 2)));
  const columns = rows[0]?.[1].length ?? 1;
  const room = Math.max(20, Math.min(52, width - 2 - columns * figures));
  return rows.map(([label, cells]) => {
    const cut = label.length > room ? `${label.slice(0, room - 2)}…` : label;
    return `  ${cut.padEnd(room)}${cells.map((cell) => cell.padStart(figures)).join('')}`;
  });
}

function ruleRows({ sides }: BurdenTextOptions, words: Words): (readonly [string, readonly string[]])[] {
  const names = [...new Set(sides.flatMap(({ burden }) => burden.rules.map((r) => `${r.set}/${r.rule}`)))];
  const found = (name: string, burden: BurdenShown) =>
    burden.rules.find(({ set, rule }) => `${set}/${rule}` === name);
  const most = (name: string) => Math.max(...sides.map(({ burden }) => found(name, burden)?.days ?? 0));
  return names
    .sort((a, b) => most(b) - most(a))
    .slice(0, MOST_RULES)
    .map((name) => [
      words.rules.get(name) ?? name,
      sides.map(({ burden }) => {
        const rule = found(name, burden);
        return rule ? `${perDay(rule.days, burden)} ${shareWords(rule.repeats, rule.days).padStart(5)}` : '–';
      }),
    ]);
}

/** One bar a round: advice a patient still there. */
function plot({ sides }: BurdenTextOptions, width: number): string[] {
  const mean = ({ patients, advice }: { patients: number; advice: number }) => advice / Math.max(patients, 1);
  const highest = Math.max(0.01, ...sides.flatMap(({ burden }) => burden.byDay.map(mean)));
  const room = Math.max(10, Math.min(40, width - 30));
  return sides.flatMap(({ name, burden }) => [
    ...(sides.length > 1 ? [`  ${name}`] : []),
    ...burden.byDay.map((day, index) => {
      const bar = '#'.repeat(Math.round((room * mean(day)) / highest));
      return `  ${`day ${index + 1}`.padEnd(7)}${mean(day).toFixed(2).padStart(6)}  ${bar.padEnd(room)} ${`n=${day.patients}`}`.trimEnd();
    }),
  ]);
}

/** How much a ward would be told: per patient-day, by indicator and rule, how much of it again. */
export function burdenText(options: BurdenTextOptions): string {
  const width = usableWidth(options.width);
  const { sides, ward, seed } = options;
  const words = wordsOf(options.releases ?? []);
  const first = sides[0]?.burden;
  const row = (label: string, cell: (burden: BurdenShown) => string) =>
    [label, sides.map(({ burden }) => cell(burden))] as const;
  return asText(
    blocks([
      wrap(
        `Advice burden on ${ward}: ${counted(first?.patients ?? 0, 'invented patient')}, ${counted(first?.patientDays ?? 0, 'patient-day')}, seed ${seed}`,
        width,
      ),
      wrap(WARD_CAUTION, width),
      table(
        [
          ...(sides.length > 1 ? [['', sides.map(({ name }) => name)] as const] : []),
          row('advice per patient-day', (b) => perDay(b.advice, b)),
          ...INDICATORS.map((indicator) => row(`  ${indicator}`, (b) => perDay(b.byIndicator[indicator], b))),
          row('of it said on the day before too', (b) => shareWords(b.repeats, b.advice)),
          row('questions per patient-day', (b) => perDay(b.questions, b)),
          row('not decided, of rules that apply or are open', (b) =>
            shareWords(b.undetermined, b.undetermined + b.applies),
          ),
        ],
        width,
      ),
      [
        `By rule, advice per patient-day and share repeated${(first?.rules.length ?? 0) > MOST_RULES ? `, the ${MOST_RULES} most frequent` : ''}`,
        ...table(ruleRows(options, words), width),
      ],
      ['Advice per patient, by day of stay', ...plot(options, width)],
      cautionLines(cautions, width),
    ]),
  );
}
