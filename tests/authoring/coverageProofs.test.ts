import { coverage, type SetCoverage } from '@dwellset/authoring';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Json } from './invented/documents.ts';
import { small, yes } from './invented/small.ts';

const count = fc
  .tuple(
    fc.constantFrom('lessThan', 'lessThanInclusive', 'greaterThan', 'greaterThanInclusive', 'equal'),
    fc.integer({ min: 0, max: 4 }),
  )
  .map(([operator, value]): Json => ({ fact: 'care.count', operator, value }));
const kind = fc
  .tuple(fc.constantFrom('equal', 'notEqual'), fc.constantFrom('day', 'night', 'leg'))
  .map(([operator, value]): Json => ({ fact: 'care.kind', operator, value }));
const { condition } = fc.letrec<{ condition: Json; leaf: Json }>((tie) => ({
  leaf: fc.oneof(count, kind, fc.constant(yes('care.pain'))),
  condition: fc.oneof(
    { maxDepth: 2 },
    tie('leaf'),
    fc
      .tuple(fc.constantFrom('all', 'any'), fc.array(tie('condition'), { minLength: 2, maxLength: 3 }))
      .map(([group, of]): Json => ({ [group]: of })),
    tie('condition').map((not): Json => ({ not })),
  ),
}));

/** Every patient of whom these facts are exactly known: 2 × 5 × 3. */
const everybody = [true, false].flatMap((pain) =>
  [0, 1, 2, 3, 4].flatMap((counted) =>
    ['day', 'night', 'leg'].map((bag) => ({
      'care.pain': pain,
      'care.count': counted,
      'care.kind': bag,
    })),
  ),
);

/** What was found of everything that exactly known facts can show, by place and goal. */
const statesOf = ({ rules, conditions, limits }: SetCoverage): Map<string, string> =>
  new Map(
    [...rules, ...conditions, ...limits].flatMap(({ place, goals }) =>
      goals
        .filter(({ what }) => what !== 'unknown' && what !== 'undetermined')
        .map(({ what, state }) => [`${place.pointer} ${what}`, state] as const),
    ),
  );

describe('what is proven impossible', () => {
  it('is exactly what no patient can show', () => {
    const seed = Number(process.env.SEED ?? 20_261_125);
    fc.assert(
      fc.property(condition, condition, (scope, when) => {
        const set = { conditions: { said: when } };
        const rule = { scope, when: { any: [{ condition: 'said' }, yes('care.pain')] } };
        const seen = (vignettes: readonly Json[]): Map<string, string> =>
          statesOf(coverage(small({ set, rule, vignettes }), { set: 'care' }).sets[0]!);
        const all = seen(everybody);
        const none = seen([{}]);
        expect(all.size).toBeGreaterThan(6);
        expect([...all].filter(([, state]) => state === 'uncovered')).toEqual([]);
        // Proven before any vignette was written, and not one more.
        const impossible = (states: Map<string, string>) =>
          [...states].flatMap(([goal, state]) => (state === 'impossible' ? [goal] : []));
        expect(impossible(none)).toEqual(impossible(all));
      }),
      { seed, numRuns: 60 },
    );
  });
});
