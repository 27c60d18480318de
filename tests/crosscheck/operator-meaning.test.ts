import { describe, expect, test } from 'vitest';
import {
  BOUNDS_OPERATORS,
  type BoundsOperator,
  OPPOSITE,
} from '../../packages/crosscheck/src/bounds/boundsOperator.ts';
import type { FactBounds } from '../../packages/crosscheck/src/bounds/factBounds.ts';
import { answer, operators } from '../../packages/crosscheck/src/bounds/operators.ts';

/** What each operator asks of one exact value: the plain meaning, against which the bounds are counted out. */
const ON_NUMBER: Partial<Record<BoundsOperator, (value: number, k: number) => boolean>> = {
  equal: (value, k) => value === k,
  notEqual: (value, k) => value !== k,
  lessThan: (value, k) => value < k,
  before: (value, k) => value < k,
  lessThanInclusive: (value, k) => value <= k,
  greaterThan: (value, k) => value > k,
  after: (value, k) => value > k,
  greaterThanInclusive: (value, k) => value >= k,
};
const ON_CODE: Partial<Record<BoundsOperator, (value: string, k: string | readonly string[]) => boolean>> = {
  equal: (value, k) => value === k,
  notEqual: (value, k) => value !== k,
  in: (value, k) => k.includes(value),
  notIn: (value, k) => !k.includes(value),
};
const ON_ANSWERS: Partial<
  Record<BoundsOperator, (yes: readonly string[], k: string | readonly string[]) => boolean>
> = {
  contains: (yes, k) => yes.includes(k as string),
  doesNotContain: (yes, k) => !yes.includes(k as string),
  containsAny: (yes, k) => (k as readonly string[]).some((code) => yes.includes(code)),
  containsNone: (yes, k) => !(k as readonly string[]).some((code) => yes.includes(code)),
};

const CODES = ['a', 'b', 'c'];
const subsets = (of: readonly string[]): string[][] =>
  Array.from({ length: 2 ** of.length }, (_, mask) => of.filter((_code, bit) => (mask >> bit) & 1));
const listed = (operator: BoundsOperator) =>
  ['in', 'notIn', 'containsAny', 'containsNone'].includes(operator);

function agrees(operator: BoundsOperator, bounds: FactBounds, k: never, held: readonly boolean[]): void {
  const found = answer(operator, bounds, k);
  const counted = { certainly: held.every(Boolean), possibly: held.some(Boolean) };
  expect({ operator, bounds, k, ...found }).toEqual({ operator, bounds, k, ...counted });
}

describe('bounds mean what counting out every possible value means', () => {
  test.each(Object.keys(ON_NUMBER) as BoundsOperator[])('numbers: %s', (operator) => {
    for (let low = 0; low <= 3; low++)
      for (let high = low; high <= 3; high++)
        for (let k = -1; k <= 4; k += 0.5) {
          // A test changes its answer only at k: the ends, the middle, k and its neighbours stand for all values.
          const values = [low, (low + high) / 2, high, k - 0.25, k, k + 0.25].filter(
            (v) => low <= v && v <= high,
          );
          const bounds: FactBounds = { kind: 'interval', low, high, recorded: 'true' };
          agrees(
            operator,
            bounds,
            k as never,
            values.map((value) => ON_NUMBER[operator]!(value, k)),
          );
        }
  });

  test.each(Object.keys(ON_CODE) as BoundsOperator[])('one code of several: %s', (operator) => {
    for (const possible of subsets(CODES).filter((set) => set.length > 0))
      for (const k of listed(operator) ? subsets(CODES) : CODES) {
        const bounds: FactBounds = { kind: 'possible', possible, recorded: 'true' };
        agrees(
          operator,
          bounds,
          k as never,
          possible.map((value) => ON_CODE[operator]!(value, k)),
        );
      }
  });

  test.each(Object.keys(ON_ANSWERS) as BoundsOperator[])('codes answered one by one: %s', (operator) => {
    for (const yes of subsets(CODES))
      for (const no of subsets(CODES.filter((code) => !yes.includes(code)))) {
        const open = CODES.filter((code) => !yes.includes(code) && !no.includes(code));
        const worlds = subsets(open).map((more) => [...yes, ...more]);
        for (const k of listed(operator) ? subsets(CODES) : CODES) {
          const bounds: FactBounds = { kind: 'answers', yes, no, recorded: 'true' };
          agrees(
            operator,
            bounds,
            k as never,
            worlds.map((world) => ON_ANSWERS[operator]!(world, k)),
          );
        }
      }
  });
});

describe('the two families', () => {
  const evaluate = (name: string) => operators.find((one) => one.name === name)!.evaluate;
  const samples: readonly (readonly [FactBounds, unknown])[] = [
    [{ kind: 'interval', low: 1, high: 3, recorded: 'unknown' }, 2],
    [{ kind: 'interval', low: 1, high: 2, recorded: 'true' }, 2],
    [{ kind: 'interval', low: 2, recorded: 'false' }, 2],
    [{ kind: 'possible', possible: ['a', 'b'], recorded: 'unknown' }, 'a'],
    [{ kind: 'possible', possible: ['a'], recorded: 'true' }, ['a', 'b']],
    [{ kind: 'possible', possible: [], recorded: 'false' }, 'a'],
    [{ kind: 'answers', yes: ['a'], no: ['b'], recorded: 'true' }, ['b', 'c']],
    [{ kind: 'answers', yes: ['a'], no: ['b'], recorded: 'true' }, 'c'],
    [{ kind: 'text', recorded: 'unknown' }, true],
  ];

  test.each(BOUNDS_OPERATORS)(
    '`certainly` the opposite of %s is the same as not `possibly` it',
    (operator) => {
      let compared = 0;
      for (const [bounds, value] of samples) {
        const asked = (name: string) => {
          try {
            return evaluate(name)(bounds, value);
          } catch {
            return 'no meaning';
          }
        };
        const possibly = asked(`possibly:${operator}`);
        if (possibly === 'no meaning') continue;
        compared++;
        expect(asked(`certainly:${OPPOSITE[operator]}`)).toBe(!possibly);
        expect(asked(`possibly:${OPPOSITE[operator]}`)).toBe(!asked(`certainly:${operator}`));
      }
      expect(compared).toBeGreaterThan(0);
    },
  );

  test('an empty list of possible codes proves nothing either way', () => {
    const nothing: FactBounds = { kind: 'possible', possible: [], recorded: 'true' };
    expect(answer('equal', nothing, 'a')).toEqual({ certainly: false, possibly: true });
    expect(answer('notIn', nothing, ['a'])).toEqual({ certainly: false, possibly: true });
  });

  test.each([undefined, null, 5, 'latex', {}])('%j in place of bounds is an error, never a no', (value) => {
    for (const operator of operators) expect(() => operator.evaluate(value, 5)).toThrow('reads bounds');
  });

  test('bounds of the wrong kind, or no right side, are an error, never a no', () => {
    const scan: FactBounds = { kind: 'interval', low: 1, high: 1, recorded: 'true' };
    expect(() => evaluate('certainly:contains')(scan, 'a')).toThrow('no meaning');
    expect(() => evaluate('possibly:greaterThan')(scan, null)).toThrow('needs a right side');
    expect(() => evaluate('possibly:greaterThan')(scan, '5')).toThrow('no meaning');
  });
});
