import { coverage, type Goal, type Library, readLibrary, type SetCoverage } from '@dwellset/authoring';
import { describe, expect, it } from 'vitest';
import { amendedPolicy, filesOf, policy } from './fixture.ts';
import { small, yes } from './invented/small.ts';

const of = (library: Library): SetCoverage => {
  const [set] = coverage(library, { set: 'care' }).sets;
  if (set === undefined) throw new Error('the small library holds one set');
  expect(set.refused).toBeUndefined();
  return set;
};

const left = (goals: readonly Goal[], state: Goal['state'] = 'uncovered'): string[] =>
  goals.filter((goal) => goal.state === state).map(({ what }) => what);

/** Whether each condition, in document order, was shown to decide alone. */
const alone = ({ conditions }: SetCoverage): (string | undefined)[] =>
  conditions.map(({ goals }) => goals.find(({ what }) => what === 'alone')?.state);

describe('outcomes of a rule', () => {
  it('names those in which no vignette shows it', () => {
    const set = of(
      small({ rule: { when: yes('care.pain') }, vignettes: [{ 'care.pain': true }, { 'care.pain': false }] }),
    );
    expect(left(set.rules[0]!.goals)).toEqual(['undetermined']);
    // Nothing limits the set or the rule.
    expect(left(set.rules[0]!.goals, 'impossible')).toEqual(['not-in-scope']);
    expect(set.totals.outcomes).toEqual({ covered: 2, uncovered: 1, impossible: 1, percent: 66.6 });
  });

  it('knows a rule that cannot but apply once it is in scope', () => {
    const set = of(
      small({
        rule: { scope: yes('care.pain'), when: { any: [yes('care.pain'), yes('care.fever')] } },
        vignettes: [{}],
      }),
    );
    const never = set.rules[0]!.goals.find(({ what }) => what === 'does-not-apply');
    expect(never).toEqual({
      what: 'does-not-apply',
      state: 'impossible',
      proof: { combinations: 4, facts: ['care.pain', 'care.fever'] },
    });
  });

  it('counts a check that is met as one that does not apply', () => {
    const set = of(
      small({
        set: { shape: 'checklist' },
        rule: { scope: yes('care.pain'), expect: yes('care.washed') },
        vignettes: [
          { 'care.pain': true, 'care.washed': true },
          { 'care.pain': false, 'care.washed': true },
        ],
      }),
    );
    expect(set.rules[0]!.check).toBe(true);
    expect(left(set.rules[0]!.goals)).toEqual(['applies', 'undetermined']);
    // Scope decides between met and not applicable; that the check was ever failed is not shown.
    expect(alone(set)).toEqual(['covered', 'uncovered']);
  });
});

describe('truth values of a condition', () => {
  it('names those that no vignette gives it, at its place', () => {
    const library = small({
      rule: { when: { all: [yes('care.pain'), yes('care.fever')] } },
      vignettes: [{ 'care.pain': true }, { 'care.pain': false, 'care.fever': true }],
    });
    const [pain, fever] = of(library).conditions;
    expect([pain, fever].map((one) => left(one!.goals))).toEqual([
      ['unknown', 'alone'],
      ['false', 'alone'],
    ]);
    expect(pain?.place).toMatchObject({ path: 'care/one.rule.json', pointer: '/when/all/0' });
    const text = library.documents.find(({ path }) => path === 'care/one.rule.json')?.source.text;
    expect(text?.split('\n')[pain!.place.range.line]).toContain('care.pain');
  });

  it('proves that a local choice has only the value it has', () => {
    const set = of(
      small({
        rule: {
          when: { all: [{ parameter: 'care.strict', operator: 'equal', value: true }, yes('care.pain')] },
        },
        vignettes: [{ 'care.pain': true }],
      }),
    );
    expect(left(set.conditions[0]!.goals, 'impossible')).toEqual(['false', 'unknown', 'alone']);
    expect(left(set.conditions[1]!.goals)).toEqual(['false', 'unknown', 'alone']);
  });

  it('proves that local choices alone leave nothing undetermined', () => {
    const when = { parameter: 'care.strict', operator: 'equal', value: true };
    const set = of(small({ rule: { when }, vignettes: [{}] }));
    expect(set.rules[0]!.goals.find(({ what }) => what === 'undetermined')).toEqual({
      what: 'undetermined',
      state: 'impossible',
      proof: { combinations: 1, facts: [] },
    });
  });

  it('takes into account that nothing may be recorded', () => {
    const when = { fact: 'care.hours', operator: 'notRecorded' };
    const set = of(small({ rule: { when }, vignettes: [{ 'care.hours': { value: 24, unit: 'h' } }] }));
    expect(left(set.conditions[0]!.goals)).toEqual(['true', 'unknown', 'alone']);
  });
});

describe('a condition that decides alone', () => {
  const either = { any: [yes('care.pain'), yes('care.fever')] };

  it('is shown by two vignettes that differ in it alone', () => {
    const set = of(
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
    const set = of(
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
    const set = of(
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
    const set = of(
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
    const refused = of(
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
    const set = of(
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
    const set = of(
      small({
        rule: { when: either },
        vignettes: [{ 'care.pain': true }, { 'care.pain': false, 'care.fever': false }],
      }),
    );
    expect(alone(set)).toEqual(['covered', 'uncovered']);
  });

  it('is one of two where the same comparison is made twice', () => {
    const set = of(
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
    const set = of(
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
    const set = of(small({ rule: { when: { all: [over(12), over(24)] } }, vignettes: [{}] }));
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
    const full = of(small({ rule: { when: between(12) }, vignettes: [{}] }));
    expect(left(full.rules[0]!.goals, 'impossible')).toContain('does-not-apply');
    const gap = of(small({ rule: { when: between(11) }, vignettes: [{}] }));
    expect(left(gap.rules[0]!.goals, 'impossible')).not.toContain('does-not-apply');
  });

  it('are proven so for codes of which a patient has one', () => {
    const kind = (operator: string, value: unknown) => ({ fact: 'care.kind', operator, value });
    const set = of(
      small({ rule: { when: { all: [kind('equal', 'day'), kind('notEqual', 'night')] } }, vignettes: [{}] }),
    );
    expect(alone(set)).toEqual(['uncovered', 'impossible']);
  });

  it('are not proven so where only what is recorded tells them apart', () => {
    const set = of(
      small({
        rule: { when: { any: [{ fact: 'care.hours', operator: 'notRecorded' }, over(24)] } },
        vignettes: [{ 'care.hours': null }, { 'care.hours': { value: 24, unit: 'h' } }],
      }),
    );
    expect(alone(set)).toEqual(['covered', 'uncovered']);
  });
});

describe('limits', () => {
  const limits = (when: object, ...hours: number[]) =>
    of(
      small({
        rule: { when },
        vignettes: hours.map((value) => ({ 'care.hours': { value, unit: 'h' } })),
      }),
    ).limits.map(({ goals }) => left(goals));

  it('are met one step below, at and one step above', () => {
    const when = { fact: 'care.hours', operator: 'greaterThan', value: { parameter: 'care.longest' } };
    expect(limits(when, 47, 48, 49)).toEqual([[]]);
    expect(limits(when, 46, 50)).toEqual([['below', 'at', 'above']]);
  });

  it('need no value that the fact cannot have', () => {
    const set = of(
      small({
        rule: { when: { fact: 'care.hours', operator: 'greaterThan', value: 0 } },
        vignettes: [{ 'care.hours': { value: 0, unit: 'h' } }],
      }),
    );
    expect(set.limits[0]!.goals.map(({ state }) => state)).toEqual(['impossible', 'covered', 'uncovered']);
  });

  it('are met within a minute where time passes by the clock', () => {
    const seen = (...times: string[]) =>
      of(
        small({
          rule: { when: { fact: 'care.since', operator: 'greaterThanInclusive', value: 12 } },
          vignettes: times.map((time) => ({ 'care.at': time })),
        }),
      ).limits.map(({ goals }) => left(goals));
    // The patients are seen at noon.
    expect(seen('2030-03-01T00:01:00Z', '2030-03-01T00:00:00Z', '2030-02-28T23:59:30Z')).toEqual([[]]);
    expect(seen('2030-03-01T00:02:00Z', '2030-02-28T23:58:00Z')).toEqual([['below', 'at', 'above']]);
  });

  it('count only in patients of whom the rule asks', () => {
    const set = of(
      small({
        rule: { scope: yes('care.pain'), when: { fact: 'care.hours', operator: 'greaterThan', value: 9 } },
        vignettes: [8, 9, 10].map((value) => ({
          'care.pain': value === 9,
          'care.hours': { value, unit: 'h' },
        })),
      }),
    );
    expect(left(set.limits[0]!.goals)).toEqual(['below', 'above']);
  });
});

describe('the sets of a library', () => {
  it('have each option kept and ruled out, or proven to be ruled out by no rule', () => {
    const library = readLibrary(filesOf(policy()));
    const [set] = coverage(library, { set: 'equipment' }).sets;
    expect(set?.options.map(({ option, goals }) => [option, ...goals.map(({ state }) => state)])).toEqual([
      ['latex-14', 'uncovered', 'covered'],
      ['silicone-12', 'covered', 'impossible'],
    ]);
    // The label settles the material, so only the allergy is left to vary.
    expect(set?.options[1]?.goals[1]?.proof).toEqual({ combinations: 2, facts: ['allergy.latex'] });
    expect(set?.options[1]?.place).toMatchObject({
      path: 'equipment/stock/catheter.json',
      pointer: '/options/1',
    });
  });

  it('show the conditions of an option for each option of its list', () => {
    const [set] = coverage(readLibrary(filesOf(policy())), { set: 'equipment' }).sets;
    const material = set?.conditions.find(({ place }) => place.pointer === '/excludes');
    expect(left(material!.goals, 'covered')).toEqual(['true', 'false', 'alone']);
  });

  it('have the rules that a hospital adds at their place in its amendment', () => {
    const added = { id: 'wet', title: 'Wet', because: 'It is.', evidence: ['ev-review'] };
    const library = amendedPolicy({
      removal: [
        {
          add: {
            ...added,
            when: { not: { fact: 'catheter.bypassing', operator: 'equal', value: false } },
            advice: { summary: 'Look.', indicator: 'info' },
          },
        },
      ],
    });
    const find = (hospital?: string) =>
      coverage(library, { set: 'removal', ...(hospital && { hospital }) }).sets[0]!.conditions.find(
        ({ home }) => 'rule' in home && home.rule === 'wet',
      );
    expect(find('hollow')?.place).toMatchObject({
      path: 'hospitals/hollow/amendment.json',
      pointer: '/amends/0/changes/0/add/when/not',
    });
    expect(find()).toBeUndefined();
  });

  it('are all covered, each by its own vignettes', () => {
    const library = readLibrary(filesOf(policy()));
    expect(coverage(library).sets.map(({ set }) => set)).toEqual([...library.sets.keys()]);
  });

  it('show nothing where they do not build', () => {
    const documents = policy();
    delete documents['removal/overdue.rule.json'];
    const [set] = coverage(readLibrary(filesOf(documents)), { set: 'removal' }).sets;
    expect(set?.refused?.join()).toContain('overdue');
    expect(set?.rules).toEqual([]);
    expect(set?.totals.outcomes.percent).toBe(0);
  });
});
