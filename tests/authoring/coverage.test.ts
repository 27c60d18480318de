import { coverage, readLibrary } from '@dwellset/authoring';
import { describe, expect, it } from 'vitest';
import { amendedPolicy, filesOf, policy } from './fixture.ts';
import { alone, coveredIn, left } from './invented/covered.ts';
import type { Json } from './invented/documents.ts';
import { small, yes } from './invented/small.ts';

describe('outcomes of a rule', () => {
  it('names those in which no vignette shows it', () => {
    const set = coveredIn(
      small({ rule: { when: yes('care.pain') }, vignettes: [{ 'care.pain': true }, { 'care.pain': false }] }),
    );
    expect(left(set.rules[0]!.goals)).toEqual(['undetermined']);
    // Nothing limits the set or the rule.
    expect(left(set.rules[0]!.goals, 'impossible')).toEqual(['not-in-scope']);
    expect(set.totals.outcomes).toEqual({ covered: 2, uncovered: 1, impossible: 1, percent: 66.6 });
  });

  it('knows a rule that cannot but apply once it is in scope', () => {
    const set = coveredIn(
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
    const set = coveredIn(
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
    const [pain, fever] = coveredIn(library).conditions;
    expect([pain, fever].map((one) => left(one!.goals))).toEqual([
      ['unknown', 'alone'],
      ['false', 'alone'],
    ]);
    expect(pain?.place).toMatchObject({ path: 'care/one.rule.json', pointer: '/when/all/0' });
    const text = library.documents.find(({ path }) => path === 'care/one.rule.json')?.source.text;
    expect(text?.split('\n')[pain!.place.range.line]).toContain('care.pain');
  });

  it('proves that a local choice has only the value it has', () => {
    const set = coveredIn(
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
    const set = coveredIn(small({ rule: { when }, vignettes: [{}] }));
    expect(set.rules[0]!.goals.find(({ what }) => what === 'undetermined')).toEqual({
      what: 'undetermined',
      state: 'impossible',
      proof: { combinations: 1, facts: [] },
    });
  });

  it('takes into account that nothing may be recorded', () => {
    const when = { fact: 'care.hours', operator: 'notRecorded' };
    const set = coveredIn(small({ rule: { when }, vignettes: [{ 'care.hours': { value: 24, unit: 'h' } }] }));
    expect(left(set.conditions[0]!.goals)).toEqual(['true', 'unknown', 'alone']);
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

  it('count what is read from the label and what follows from it as settled by the option', () => {
    const documents = policy();
    const excludes = { fact: 'option.table-dwell', operator: 'lessThan', value: 5 };
    Object.assign(documents['equipment/latex-allergy.rule.json'] as object, { excludes });
    const [set] = coverage(readLibrary(filesOf(documents)), { set: 'equipment' }).sets;
    expect(set?.options.map(({ goals }) => goals[1]?.state)).toEqual(['impossible', 'impossible']);
  });

  it('count what an option settles whoever the patient is, and not what another moment may change', () => {
    const never = (from: Json, fact: Json = {}) => {
      const documents = policy();
      const { derived } = documents['equipment/ruleset.json'] as { derived: Json[] };
      derived.push({
        id: 'option.reach',
        type: 'number',
        unit: 'd',
        limits: [0, 100_000],
        title: 'reach',
        question: 'How far does it reach?',
        ...fact,
        from,
      });
      const excludes = { fact: 'option.reach', operator: 'lessThan', value: 5 };
      Object.assign(documents['equipment/latex-allergy.rule.json'] as object, { excludes });
      const [set] = coverage(readLibrary(filesOf(documents)), { set: 'equipment' }).sets;
      return set?.options.map(({ goals }) => goals[1]?.state);
    };
    // At least the dwell of the table, however many days it has been in.
    expect(never({ sum: ['option.table-dwell', 'catheter.days-in'] })).toEqual(['uncovered', 'uncovered']);
    expect(never({ sum: ['option.table-dwell', 'option.table-dwell'] })).toEqual([
      'impossible',
      'impossible',
    ]);
    expect(never({ localHour: { at: 'asOf' } }, { unit: 'h', limits: [0, 24] })).toEqual([
      'uncovered',
      'uncovered',
    ]);
  });

  it('show a rule that remarks on options on one of them, and not on another', () => {
    const remarked = (remarks: unknown, allergic: boolean) => {
      const documents = policy();
      const path = 'equipment/latex-allergy';
      const { excludes: _, ...kept } = documents[`${path}.rule.json`] as Json;
      documents[`${path}.rule.json`] = { ...kept, remarks };
      (documents[`${path}.vignettes.json`]!.base as Json).facts = { 'allergy.latex': allergic };
      const [set] = coverage(readLibrary(filesOf(documents)), { set: 'equipment' }).sets;
      expect(set?.remarks.map(({ rule: id, of, place }) => [id, of, place.path, place.pointer])).toEqual([
        ['latex-allergy', 'catheter', `${path}.rule.json`, '/remarks'],
      ]);
      const { goals } = set!.remarks[0]!;
      const options = set!.options.flatMap((one) => one.goals);
      expect(set!.totals.options).toMatchObject({
        covered: left([...goals, ...options], 'covered').length,
        uncovered: left([...goals, ...options]).length,
      });
      return goals.map(({ state }) => state);
    };
    const latex = { fact: 'option.material', operator: 'equal', value: 'latex' };
    expect(remarked(latex, true)).toEqual(['covered', 'covered']);
    // Of a patient whom the rule is not about, nothing is shown.
    expect(remarked(latex, false)).toEqual(['uncovered', 'uncovered']);
    expect(remarked({ fact: 'option.size', operator: 'greaterThan', value: 11 }, true)).toEqual([
      'covered',
      'uncovered',
    ]);
    expect(remarked({ any: [latex, { not: latex }] }, true)).toEqual(['covered', 'impossible']);
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
