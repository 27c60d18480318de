import { assess, type Case, compile } from '@dwellset/core';
import { expect, test } from 'vitest';
import { leaf, makeCase, makeFact, makeRelease, makeRule } from '../reference/release.ts';

const releases = [
  makeRelease({
    codes: { sizes: { small: 'small', usual: 'usual', large: 'large', huge: 'huge' } },
    facts: [
      makeFact('volume', { type: 'number', unit: 'mL', limits: [0, 900] }),
      makeFact('asked', { type: 'boolean' }),
      makeFact('size', {
        type: 'code',
        codes: 'sizes',
        from: { band: { of: 'volume', cuts: [100, 200, 300], codes: ['small', 'usual', 'large', 'huge'] } },
      }),
    ],
    rules: [
      makeRule('either', {
        when: {
          any: [
            leaf('asked', 'equal', true),
            { all: [leaf('size', 'in', ['small', 'large']), leaf('size', 'in', ['usual', 'large'])] },
          ],
        },
      }),
    ],
  }),
];
const within = (value: number): Case['facts'] => ({ volume: { value, unit: 'mL', comparator: '<' } });

/** What would settle the rule, by a plan that may have seen other cases. */
const askedBy = (plan: ReturnType<typeof compile>, facts: Case['facts']) =>
  assess(plan, makeCase(facts)).ruleSets[0]!.rules[0]!.asks;

test('cases that leave the same conditions open, but not the same values, are asked differently by one plan', () => {
  const plan = compile(releases, { allow: ['draft'] });
  // Below 200 mL no volume makes it large, so that only the other question can settle the rule.
  expect(askedBy(plan, within(150))).toEqual([['asked']]);
  expect(askedBy(plan, within(250))).toEqual([['volume'], ['asked']]);
  expect(askedBy(plan, within(150))).toEqual([['asked']]);
});

test('a copy of a set with other limits is asked by its own, whatever was asked by the set before', () => {
  const [release] = releases;
  const limited = [{ ...release!, scope: leaf('asked', 'equal', false) }];
  const plan = compile(limited, { allow: ['draft'] });
  const copy = { ...plan, sets: plan.sets.map((set) => ({ ...set, gate: undefined })) };
  const before = askedBy(plan, within(250));
  expect(askedBy(copy, within(250))).toEqual([['volume'], ['asked']]);
  expect(before).not.toEqual([['volume'], ['asked']]);
});
