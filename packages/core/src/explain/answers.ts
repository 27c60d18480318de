import type { Reading } from '../facts/reading.ts';
import { roundToStep } from '../facts/rounding.ts';
import { FALSE, TRUE, type Truth, UNKNOWN } from '../facts/truth.ts';
import { type LeafTest, leafTruth } from '../plan/leaf.ts';
import type { Leaf } from '../plan/plan.ts';

/** The truths that one possible answer to a fact gives its open leaves, in their order. */
export type Pattern = readonly Truth[];

/** Codes beyond this many open ones are tried one by one instead of in every combination. */
const MOST_COMBINED_CODES = 6;

/**
 * Every way in which the leaves over one fact can come out once the fact is known: the values that the leaves can
 * tell apart, and the empty record where a leaf asks whether anything is recorded.
 */
export function patternsOf(reading: Reading, leaves: readonly Leaf[]): Pattern[] {
  const tests = leaves.map(({ test }) => test);
  const found = new Map<string, Pattern>();
  for (const answer of answersTo(reading, tests)) {
    const pattern = tests.map((test) => leafTruth(test, answer));
    found.set(pattern.join(), pattern);
  }
  return [...found.values()];
}

function answersTo(reading: Reading, tests: readonly LeafTest[]): Reading[] {
  const known: Reading = { ...reading, recorded: reading.recorded === UNKNOWN ? TRUE : reading.recorded };
  const answers = valuesOf(known, tests);
  const asksForRecord = reading.recorded === UNKNOWN && tests.some(({ kind }) => kind === 'recorded');
  return asksForRecord ? [...answers, { ...reading, recorded: FALSE }] : answers;
}

function valuesOf(reading: Reading, tests: readonly LeafTest[]): Reading[] {
  const { bounds, fact } = reading;
  switch (bounds.kind) {
    case 'interval':
      return valuesBetween(bounds.low, bounds.high, tests, fact.step).map((value) => ({
        ...reading,
        bounds: { kind: 'interval', low: value, high: value },
      }));
    case 'possible':
      return bounds.possible.map((code) => ({ ...reading, bounds: { kind: 'possible', possible: [code] } }));
    case 'answers': {
      const asked = new Set(tests.flatMap((test) => (test.kind === 'contains' ? test.codes : [])));
      const open = [...asked].filter((code) => bounds.answers.get(code) === UNKNOWN);
      return combinations(open).map((yes) => {
        const answers = new Map(bounds.answers);
        for (const code of open) answers.set(code, yes.has(code) ? TRUE : FALSE);
        return { ...reading, bounds: { kind: 'answers', answers } };
      });
    }
    case 'text':
    case 'list':
      return [reading];
  }
}

/** The ends, every cut, and a value between each two cuts: all that comparisons can tell apart. */
function valuesBetween(
  low: number,
  high: number,
  tests: readonly LeafTest[],
  step: number | undefined,
): number[] {
  const cuts = tests
    .flatMap((test) => (test.kind === 'compare' ? [test.to] : []))
    .filter((cut) => cut >= low && cut <= high);
  const marks = [...new Set([low, ...cuts, high])].filter(Number.isFinite).sort((a, b) => a - b);
  const first = marks[0] ?? 0;
  const last = marks.at(-1) ?? 0;
  const between = marks.slice(1).map((mark, index) => (mark + marks[index]!) / 2);
  const outside = [...(low === -Infinity ? [first - 1] : []), ...(high === Infinity ? [last + 1] : [])];
  const values =
    step === undefined
      ? [...marks, ...between, ...outside]
      : [...marks, ...outside, ...marks.flatMap((mark) => [mark - step, mark + step])];
  return [...new Set(values.map((value) => roundToStep(value, step)))].filter(
    (value) => value >= low && value <= high,
  );
}

function combinations(codes: readonly string[]): ReadonlySet<string>[] {
  if (codes.length > MOST_COMBINED_CODES) {
    return [new Set<string>(), new Set(codes), ...codes.map((code) => new Set([code]))];
  }
  return Array.from(
    { length: 2 ** codes.length },
    (_, mask) => new Set(codes.filter((_code, index) => mask & (1 << index))),
  );
}
