import {
  type Bounds,
  FALSE,
  type Fact,
  type Leaf,
  leafTruth,
  TRUE,
  type Truth,
  UNKNOWN,
} from '@dwellset/core';
import { gridOf, isPossible, onGrid } from './resolution.ts';

/** The truths of several comparisons of one fact for one of its values, in the order of the comparisons. */
export type Atom = readonly Truth[];

/** Beyond this the codes of one fact are not combined. */
const MOST_CLASSES = 12;

/**
 * Every combination of truths that the comparisons of one fact can have while it is exactly known, and, where one asks
 * whether it is recorded, while nothing is recorded. Between two neighbouring cut points all values are alike, as are
 * codes that the same comparisons name, so the list is complete. Nothing where that is too much to list.
 */
export function atomsOf(
  fact: Fact,
  leaves: readonly Leaf[],
  codes: readonly string[],
): readonly Atom[] | undefined {
  const values = boundsOf(fact, leaves, codes);
  if (values === undefined) return undefined;
  const atoms = values.map((bounds): Atom => {
    const reading = { fact, bounds, recorded: TRUE } as const;
    return leaves.map(({ test }) => leafTruth(test, reading));
  });
  const asksWhetherRecorded = leaves.some(({ test }) => test.kind === 'recorded');
  const empty: Atom[] = asksWhetherRecorded
    ? [
        leaves.map(({ test }) =>
          test.kind === 'recorded'
            ? leafTruth(test, { fact, bounds: { kind: 'text', text: undefined }, recorded: FALSE })
            : UNKNOWN,
        ),
      ]
    : [];
  return [...new Map([...atoms, ...empty].map((atom) => [atom.join(), atom])).values()];
}

function boundsOf(
  fact: Fact,
  leaves: readonly Leaf[],
  codes: readonly string[],
): readonly Bounds[] | undefined {
  // Whatever stands in the record is alike where it is only asked whether anything does.
  if (leaves.every(({ test }) => test.kind === 'recorded')) return [{ kind: 'text', text: '' }];
  switch (fact.type) {
    case 'number':
    case 'date':
    case 'date-time':
      return valuesOf(fact, leaves).map((value) => ({ kind: 'interval', low: value, high: value }));
    case 'boolean':
      return ['true', 'false'].map((value) => ({ kind: 'possible', possible: [value] }));
    case 'code':
      return codes.map((code) => ({ kind: 'possible', possible: [code] }));
    case 'codes':
      return answersOf(leaves, codes);
    default:
      return undefined;
  }
}

/** Each cut point, its neighbours on the fact's grid, a value between every two, and the ends of the domain. */
export function valuesOf(fact: Fact, leaves: readonly Leaf[]): number[] {
  const cuts = leaves.flatMap(({ test }) => (test.kind === 'compare' ? [test.to] : [])).sort((a, b) => a - b);
  const ends = (fact.limits ?? []).filter(Number.isFinite);
  const grid = gridOf(fact);
  const marks = [...cuts, ...ends].sort((a, b) => a - b);
  const found =
    grid === undefined
      ? marks.flatMap((mark, index) => [mark, mark - 1, mark + 1, (mark + (marks[index + 1] ?? mark)) / 2])
      : marks.flatMap((mark) => [-1, 0, 1].map((by) => onGrid(Math.floor(mark / grid + 1e-9) + by, grid)));
  const values = [...new Set(found)].filter((value) => isPossible(fact, value));
  return values.length > 0 ? values : [ends[0] ?? 0];
}

/** Codes that the same comparisons name stand or fall together. */
function answersOf(leaves: readonly Leaf[], codes: readonly string[]): readonly Bounds[] | undefined {
  const named = (code: string): string =>
    leaves.map(({ test }) => (test.kind === 'contains' && test.codes.includes(code) ? '1' : '0')).join('');
  const classes = [...new Set(codes.map(named))].filter((names) => names.includes('1'));
  if (classes.length > MOST_CLASSES) return undefined;
  return Array.from({ length: 2 ** classes.length }, (_, pattern): Bounds => {
    const yes = new Set(classes.filter((_name, index) => (pattern >> index) % 2 === 1));
    return {
      kind: 'answers',
      answers: new Map(codes.map((code): [string, Truth] => [code, yes.has(named(code)) ? TRUE : FALSE])),
    };
  });
}
