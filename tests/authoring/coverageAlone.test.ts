import { describe, expect, it } from 'vitest';
import { alone, coveredIn, left } from './invented/covered.ts';
import { small, yes } from './invented/small.ts';

describe('a condition that decides alone', () => {
  const either = { any: [yes('care.pain'), yes('care.fever')] };

  it('is shown by two vignettes that differ in it alone', () => {
    const set = coveredIn(
      small({
        rule: { when: either },
        vignettes: [
          { 'care.pain': true, 'care.fever': false },
          { 'care.pain': false, 'care.fever': false },
        ],
      }),
    );
    expect(alone(set)).toEqual(['covered', 'uncovered']);
    expect(set.conditions[0]!.pair).toEqual(['one/v0', 'one/v1']);
  });

  it('is not shown where another one would give the same outcome', () => {
    const set = coveredIn(
      small({
        rule: { when: either },
        vignettes: [
          { 'care.pain': true, 'care.fever': true },
          { 'care.pain': false, 'care.fever': false },
        ],
      }),
    );
    expect(alone(set)).toEqual(['uncovered', 'uncovered']);
  });

  it('may be shown beside others that differ where those have no say', () => {
    const set = coveredIn(
      small({
        rule: { when: { all: [yes('care.washed'), either] } },
        vignettes: [
          { 'care.washed': true, 'care.pain': true, 'care.fever': false },
          { 'care.washed': false, 'care.pain': false, 'care.fever': true },
        ],
      }),
    );
    expect(alone(set)).toEqual(['covered', 'uncovered', 'uncovered']);
  });

  it('is followed through a negation', () => {
    const set = coveredIn(
      small({
        rule: { when: { all: [yes('care.pain'), { not: either }] } },
        vignettes: [
          { 'care.pain': true, 'care.fever': true },
          { 'care.pain': true, 'care.fever': false },
        ],
      }),
    );
    // `pain` twice: asked for and refused, so that the rule never applies and nothing decides.
    expect(alone(set)).toEqual(['impossible', 'impossible', 'impossible']);
    const refused = coveredIn(
      small({
        rule: { when: { all: [yes('care.washed'), { not: either }] } },
        vignettes: [
          { 'care.washed': true, 'care.pain': false, 'care.fever': true },
          { 'care.washed': true, 'care.pain': false, 'care.fever': false },
        ],
      }),
    );
    expect(alone(refused)).toEqual(['uncovered', 'uncovered', 'covered']);
  });

  it('does not count while its rule is out of scope', () => {
    const set = coveredIn(
      small({
        rule: { scope: yes('care.washed'), when: yes('care.pain') },
        vignettes: [
          { 'care.washed': false, 'care.pain': true },
          { 'care.washed': false, 'care.pain': false },
        ],
      }),
    );
    expect(alone(set)).toEqual(['uncovered', 'uncovered']);
  });

  it('decides although another one is unknown, where that one is not needed', () => {
    const set = coveredIn(
      small({
        rule: { when: either },
        vignettes: [{ 'care.pain': true }, { 'care.pain': false, 'care.fever': false }],
      }),
    );
    expect(alone(set)).toEqual(['covered', 'uncovered']);
  });

  it('is one of two where the same comparison is made twice', () => {
    const set = coveredIn(
      small({
        rule: {
          when: { any: [yes('care.pain'), { all: [{ not: yes('care.pain') }, yes('care.fever')] }] },
        },
        vignettes: [
          { 'care.pain': true, 'care.fever': true },
          { 'care.pain': false, 'care.fever': false },
        ],
      }),
    );
    expect(alone(set)).toEqual(['covered', 'impossible', 'uncovered']);
  });

  it('counts a named condition as one, and its own conditions for it', () => {
    const set = coveredIn(
      small({
        set: { conditions: { unwell: either } },
        rule: { when: { all: [{ condition: 'unwell' }, yes('care.washed')] } },
        vignettes: [
          { 'care.pain': true, 'care.fever': false, 'care.washed': true },
          { 'care.pain': false, 'care.fever': false, 'care.washed': true },
        ],
      }),
    );
    expect(set.conditions.map(({ home }) => home)).toEqual([
      { named: 'unwell' },
      { named: 'unwell' },
      { rule: 'one', part: 'when' },
      { rule: 'one', part: 'when' },
    ]);
    expect(alone(set)).toEqual(['covered', 'uncovered', 'covered', 'uncovered']);
    expect(set.conditions[0]!.place).toMatchObject({
      path: 'care/ruleset.json',
      pointer: '/conditions/unwell/any/0',
    });
  });
});

describe('conditions that cannot decide alone', () => {
  const over = (value: number) => ({ fact: 'care.hours', operator: 'greaterThan', value });

  it('are proven so where a stricter limit on the same fact implies them', () => {
    const set = coveredIn(small({ rule: { when: { all: [over(12), over(24)] } }, vignettes: [{}] }));
    const [weaker, stricter] = set.conditions.map(({ goals }) => goals.find(({ what }) => what === 'alone'));
    // Up to 12 h, over 12 h up to 24 h, over 24 h.
    expect(weaker).toEqual({
      what: 'alone',
      state: 'impossible',
      proof: { combinations: 3, facts: ['care.hours'] },
    });
    expect(stricter).toEqual({ what: 'alone', state: 'uncovered' });
  });

  it('are weighed by the values that a step allows', () => {
    const between = (above: number) => ({
      any: [{ not: over(above) }, { fact: 'care.hours', operator: 'greaterThanInclusive', value: 13 }],
    });
    // 12 h 30 min cannot be recorded: whatever is over 12 h is 13 h or more.
    const full = coveredIn(small({ rule: { when: between(12) }, vignettes: [{}] }));
    expect(left(full.rules[0]!.goals, 'impossible')).toContain('does-not-apply');
    const gap = coveredIn(small({ rule: { when: between(11) }, vignettes: [{}] }));
    expect(left(gap.rules[0]!.goals, 'impossible')).not.toContain('does-not-apply');
  });

  it('are proven so for codes of which a patient has one', () => {
    const kind = (operator: string, value: unknown) => ({ fact: 'care.kind', operator, value });
    const set = coveredIn(
      small({ rule: { when: { all: [kind('equal', 'day'), kind('notEqual', 'night')] } }, vignettes: [{}] }),
    );
    expect(alone(set)).toEqual(['uncovered', 'impossible']);
  });

  it('are proven so by a local choice that never turns, however many combinations stand beside it', () => {
    const among = (fact: string) => ({
      any: Array.from({ length: 60 }, (_, value) => ({ fact, operator: 'greaterThan', value })),
    });
    const strict = { parameter: 'care.strict', operator: 'equal', value: true };
    const count = { any: [0, 1, 2, 3].map((value) => ({ fact: 'care.count', operator: 'equal', value })) };
    const kind = {
      any: ['day', 'night'].map((value) => ({ fact: 'care.kind', operator: 'equal', value })),
    };
    const many = {
      all: [
        ...['care.pain', 'care.fever', 'care.washed'].map(yes),
        among('care.hours'),
        among('care.since'),
        count,
        kind,
      ],
    };
    const set = coveredIn(small({ rule: { scope: strict, when: many }, vignettes: [{}] }));
    const [choice, pain] = alone(set);
    expect(choice).toBe('impossible');
    // Too many combinations to try, so that nothing is claimed of the others.
    expect(pain).toBe('uncovered');
  });

  it('are not proven so where only what is recorded tells them apart', () => {
    const set = coveredIn(
      small({
        rule: { when: { any: [{ fact: 'care.hours', operator: 'notRecorded' }, over(24)] } },
        vignettes: [{ 'care.hours': null }, { 'care.hours': { value: 24, unit: 'h' } }],
      }),
    );
    expect(alone(set)).toEqual(['covered', 'uncovered']);
  });
});
