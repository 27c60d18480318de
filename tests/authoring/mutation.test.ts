import { mutate, type SetMutation } from '@dwellset/authoring';
import { describe, expect, it } from 'vitest';
import type { Json } from './invented/documents.ts';
import { small, yes } from './invented/small.ts';

const many: Json = { fact: 'care.count', operator: 'greaterThanInclusive', value: 2 };

/** The rule `one` of a set, tried against vignettes that each say what must come of it. */
function tried(rule: Json, expected: readonly (readonly [facts: Json, outcome: string])[]): SetMutation {
  const library = small({ rule, vignettes: expected.map(([facts]) => facts) });
  const file = library.sets.get('care')!.vignettes.get('one')!;
  file.value.vignettes.forEach((vignette, index) => {
    Object.assign(vignette.expect, { rules: { one: expected[index]![1] } });
  });
  return mutate(library, { set: 'care' }).sets[0]!;
}

describe('mistakes planted in a rule', () => {
  it('are all noticed by vignettes just below, at and above its limit', () => {
    const set = tried({ when: many }, [
      [{ 'care.count': 1 }, 'does-not-apply'],
      [{ 'care.count': 2 }, 'applies'],
      [{ 'care.count': 3 }, 'applies'],
    ]);
    expect(set.all).toEqual({ planted: 4, noticed: 4, withoutEffect: 0, percent: 100 });
  });

  it('that are noticed come with the vignette that does, and what it gets otherwise', () => {
    const set = tried({ when: many }, [
      [{ 'care.count': 1 }, 'does-not-apply'],
      [{ 'care.count': 2 }, 'applies'],
    ]);
    const limits = set.noticed.filter(({ kind }) => kind === 'limit');
    expect(
      limits.map(({ after, by, telling }) => [after, by.rule, telling.case.facts['care.count']]),
    ).toEqual([
      [{ ...many, value: 1 }, 'one', 1],
      [{ ...many, value: 3 }, 'one', 2],
    ]);
    expect(limits.flatMap(({ telling }) => telling.differences)).toEqual([
      { what: 'rules.one', as: 'does-not-apply', with: 'applies' },
      { what: 'rules.one', as: 'applies', with: 'does-not-apply' },
    ]);
  });

  it('that nobody notices come with a patient who tells them from the rule as it stands', () => {
    const set = tried({ when: many, locked: true }, [
      [{ 'care.count': 0 }, 'does-not-apply'],
      [{ 'care.count': 3 }, 'applies'],
    ]);
    const found = set.survivors.map(({ after, telling }) => [after, telling?.case.facts]);
    expect(found).toEqual([
      [{ ...many, operator: 'greaterThan' }, { 'care.count': { value: 2, unit: '1' } }],
      [{ ...many, value: 1 }, { 'care.count': { value: 1, unit: '1' } }],
      [{ ...many, value: 3 }, { 'care.count': { value: 2, unit: '1' } }],
    ]);
    expect(set.survivors.flatMap(({ telling }) => telling!.differences[0]!.what)).toEqual(
      Array.from({ length: 3 }, () => 'rules.one'),
    );
    expect(set.locked.percent).toBe(25);
  });

  it('do not count where no patient could show them, known or not', () => {
    const set = tried({ when: { any: [many, { ...many, value: 3 }] } }, [
      [{ 'care.count': 1 }, 'does-not-apply'],
      [{ 'care.count': 2 }, 'applies'],
      [{ 'care.count': 3 }, 'applies'],
    ]);
    const without = set.survivors.filter(({ verdict }) => verdict === 'without-effect');
    // Whoever has three has two as well.
    expect(without.map(({ kind, before }) => [kind, before])).toContainEqual([
      'left-out',
      { ...many, value: 3 },
    ]);
    expect(set.all.noticed + set.all.withoutEffect).toBeLessThanOrEqual(set.all.planted);
  });

  it('are not planted while a vignette fails by itself', () => {
    const set = tried({ when: yes('care.pain') }, [[{ 'care.pain': true }, 'does-not-apply']]);
    expect(set.refused).toHaveLength(1);
    expect(set.all.planted).toBe(0);
  });
});
