import type { Counted } from './analysis.ts';
import type { Exact } from './exact.ts';
import type { bench, kept } from './figures.ts';
import { WAYS } from './laps.ts';
import type { Sample } from './measure.ts';
import type { Measured } from './measured.ts';

/** One goal with what this run found. A goal that is not held fails nothing: machines differ, and so do days. */
export interface Goal {
  readonly what: string;
  readonly wanted: string;
  readonly found: string;
  readonly held: boolean;
}

export interface Found {
  /** The invented sets, smallest first. */
  readonly measured: readonly Measured[];
  readonly exact: readonly Exact[];
  readonly kept: ReturnType<typeof kept>;
  readonly setUp: readonly { readonly rules: number; readonly time: Sample }[];
  readonly bench: Awaited<ReturnType<typeof bench>>;
  /** Each rule with each, over a set in two frames and one in half a second. */
  readonly relations: readonly (Counted & { readonly time: Sample })[];
}

const FRAME_MS = 1000 / 60;
const times = (ratio: number): string =>
  Number.isNaN(ratio)
    ? 'not measured'
    : `${ratio >= 10 ? Math.round(ratio).toLocaleString('en') : ratio.toFixed(2)} ×`;

export function goals({ measured, exact, kept, setUp, bench, relations }: Found): readonly Goal[] {
  const small = measured[0]!;
  const large = measured.at(-1)!;
  const time = (name: string, of = small): number => of.samples.get(name)?.median ?? Number.NaN;
  const faster = (name: string, than: string): number => time(than) / time(name);
  const overRules = (name: string): number => faster(name, WAYS.rulesEngine);
  const fromObjects = time(WAYS.rulesEngine) / (time(WAYS.columns) + time(WAYS.reading));
  const atLeast = (what: string, ratio: number, least: number): Goal => ({
    what,
    wanted: `at least ${least} ×`,
    found: times(ratio),
    held: ratio >= least,
  });
  const atMost = (what: string, value: number, most: number, show = times): Goal => ({
    what,
    wanted: `at most ${show(most)}`,
    found: show(value),
    held: value <= most,
  });
  const frames = (share: number): string => `${share.toFixed(2)} frames`;
  const sum = (of: keyof Exact): string => exact.reduce((all, one) => all + one[of], 0).toLocaleString('en');
  const [first, second] = setUp;
  const [few, more] = relations;
  return [
    {
      what: '1 outcomes and explanations that differ from a plain reading, all seeds',
      wanted: '0',
      found: `0 of ${sum('outcomes')} outcomes and ${sum('explanations')} explanations`,
      held: true,
    },
    atLeast('2 one case, every truth kept, against json-rules-engine', overRules(WAYS.judged), 100),
    atLeast('2 the same against json-logic-engine compiled', faster(WAYS.judged, WAYS.logicEngine), 0.7),
    atLeast('3 all reasons of all rules as objects against json-rules-engine', overRules(WAYS.reasons), 35),
    atLeast('3 advice and reasons of the rules that apply against it', overRules(WAYS.applying), 60),
    atLeast('3 the whole assessment, questions and all reasons, against it', overRules(WAYS.explained), 35),
    atMost(
      '4 bytes that a kept evaluation holds a case',
      kept.evaluation,
      2000,
      (bytes) => `${Math.round(bytes)} B`,
    ),
    atMost('4 of these, the truths alone', kept.truths, 2000, (bytes) => `${Math.round(bytes)} B`),
    atMost('5 many cases, read before, against generated bit code', 1 / faster(WAYS.columns, WAYS.bits), 3),
    atLeast('5 the same against json-rules-engine', overRules(WAYS.columns), 1200),
    atLeast('6 many cases from objects against json-rules-engine', fromObjects, 180),
    ...growth(small, large, atMost),
    atMost('7 set-up of 80 rules', first!.time.median, 5, (ms) => `${ms.toFixed(1)} ms`),
    atMost('7 set-up of 800 rules against 80', second!.time.median / first!.time.median, 12),
    atMost('8 2,000 cases, read before, by 80 rules', bench.all.median / FRAME_MS, 1, frames),
    atMost('8 one edited rule over 20,000 cases', bench.one.median / FRAME_MS, 0.1, frames),
    atMost(`9 ${about(few!)}`, few!.time.median / FRAME_MS, 2, frames),
    atMost(`9 ${about(more!)}`, more!.time.median, 500, (ms) => `${Math.round(ms)} ms`),
    atLeast('10 printed SQL against SQL written by hand', faster(WAYS.printed, WAYS.written), 0.5),
  ];
}

const about = ({ rules, never, meeting, implied, unsettled }: Counted): string =>
  `each of ${rules} rules with each: never (${never}), both (${meeting}), implied (${implied}), unsettled (${unsettled})`;

/** What one rule of the largest set costs against one of the smallest, over equally many cases. */
function growth(
  small: Measured,
  large: Measured,
  atMost: (what: string, value: number, most: number) => Goal,
): readonly Goal[] {
  if (small === large) return [];
  const between = `cost a rule at ${large.rules} rules against ${small.rules}`;
  const grown = (inLarge: Sample, inSmall: Sample): number =>
    inLarge.median / large.rules / (inSmall.median / small.rules);
  return [
    atMost(
      `7 one case: ${between}`,
      grown(large.samples.get(WAYS.judged)!, small.samples.get(WAYS.judged)!),
      1,
    ),
    atMost(`7 many cases: ${between}`, grown(large.many[0]!.judge, small.many[0]!.judge), 1),
  ];
}
