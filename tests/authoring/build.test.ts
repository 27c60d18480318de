import { buildRelease, readLibrary, runVignettes } from '@dwellset/authoring';
import { canonicalJson, digest } from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { filesOf, policy } from './fixture.ts';
import { doc, type Json, rule } from './invented/documents.ts';

const library = readLibrary(filesOf(policy()));
const released = (set: string, from = library) => {
  const { release, refused } = buildRelease(from, set);
  expect(refused).toBeUndefined();
  return release!;
};

describe('reading a policies folder', () => {
  it('finds every document sound', () => {
    expect(library.documents.filter(({ sound }) => !sound).map(({ path }) => path)).toEqual([]);
  });

  it('keeps facts in dictionary order: order of the group, then of the file', () => {
    expect([...library.facts.keys()].slice(0, 2)).toEqual(['catheter.stage', 'catheter.removed-at']);
    expect([...library.facts.keys()].indexOf('allergy.latex')).toBeGreaterThan(
      [...library.facts.keys()].indexOf('catheter.unused'),
    );
  });

  it('keeps the neighbours of an entry that is wrong, and its id', () => {
    const documents = policy();
    (documents['facts/catheter.json']!.facts as { type: string }[])[0]!.type = 'colour';
    const read = readLibrary(filesOf(documents));
    expect(read.facts.has('catheter.stage')).toBe(false);
    expect(read.facts.has('catheter.inserted-at')).toBe(true);
    expect(read.unsound.has('catheter.stage')).toBe(true);
  });

  it('does not read releases back as documents', () => {
    const files = filesOf(policy()).set('releases/removal-0.1.0.json', '{}');
    expect(readLibrary(files).documents.some(({ path }) => path.startsWith('releases/'))).toBe(false);
  });
});

describe('a release', () => {
  it('holds the facts its rules read, with what those rest on, in dictionary order and derived last', () => {
    expect(released('removal').facts.map(({ id }) => id)).toEqual([
      'catheter.stage',
      'catheter.inserted-at',
      'catheter.days-in',
      'catheter.signs',
      'catheter.bypassing',
      'removal.signs-counted',
    ]);
  });

  it('holds the choices, evidence, sources, hazards and code lists it uses, and no others', () => {
    const release = released('removal');
    expect(release.parameters.map(({ id }) => id)).toEqual(['dwell.longest', 'dwell.review', 'dwell.signs']);
    expect(release.parameters.map(({ value }) => value)).toEqual([14, 3, ['fever']]);
    expect(release.tables).toEqual([]);
    expect(release.evidence.map(({ id }) => id)).toEqual(['ev-long', 'ev-longer', 'ev-review', 'ev-short']);
    expect(release.sources.map(({ id }) => id)).toEqual(['invented-guide']);
    expect(release.hazards.map(({ id }) => id)).toEqual(['left-too-long']);
    expect(Object.keys(release.codes)).toEqual(['signs', 'stages']);
    expect(Object.keys(release.conditions)).toEqual(['overdue']);
  });

  it('holds a parameter that only a text names', () => {
    const documents = policy();
    documents['removal/bypassing.rule.json'] = {
      ...documents['removal/bypassing.rule.json'],
      because: 'The table is kept beside {{dwell.review}}.',
    };
    documents['removal/review.rule.json'] = {
      ...documents['removal/review.rule.json'],
      when: { fact: 'catheter.bypassing', operator: 'recorded' },
    };
    const release = released('removal', readLibrary(filesOf(documents)));
    expect(release.parameters.map(({ id }) => id)).toContain('dwell.review');
  });

  it('holds the instant that another may not lie before', () => {
    const documents = policy();
    documents['removal/bypassing.rule.json'] = {
      ...documents['removal/bypassing.rule.json'],
      when: { fact: 'catheter.removed-at', operator: 'recorded' },
    };
    documents['removal/overdue.rule.json'] = {
      ...documents['removal/overdue.rule.json'],
      when: { fact: 'catheter.signs', operator: 'recorded' },
    };
    documents['removal/review.rule.json'] = {
      ...documents['removal/review.rule.json'],
      when: { fact: 'catheter.signs', operator: 'recorded' },
    };
    const ids = released('removal', readLibrary(filesOf(documents))).facts.map(({ id }) => id);
    expect(ids).toContain('catheter.inserted-at');
    expect(ids).not.toContain('catheter.days-in');
  });

  it('holds the stock of a choice set, with the table that its derived facts look up', () => {
    const release = released('equipment');
    expect(release.stock.catheter?.map(({ id }) => id)).toEqual(['latex-14', 'silicone-12']);
    expect(release.tables.map(({ id }) => id)).toEqual(['dwell.by-material']);
    expect(release.facts.map(({ id }) => id)).toEqual([
      'allergy.latex',
      'option.material',
      'option.size',
      'option.table-dwell',
    ]);
  });

  it('is the same to the byte whatever the order in which files are found', () => {
    const backwards = new Map([...filesOf(policy())].reverse());
    const again = buildRelease(readLibrary(backwards), 'removal');
    expect(JSON.stringify(again.release)).toBe(JSON.stringify(released('removal')));
    expect(again.digest).toBe(digest(released('removal')));
  });

  it('is the same built as read back from its file', () => {
    const release = released('equipment');
    expect(JSON.stringify(JSON.parse(canonicalJson(release)))).toBe(JSON.stringify(release));
  });

  it('does not change with what it does not use', () => {
    const documents = policy();
    (documents['facts/catheter.json']!.facts as { id: string; title: string }[]).at(-1)!.title =
      'Other words';
    expect(buildRelease(readLibrary(filesOf(documents)), 'removal').digest).toBe(digest(released('removal')));
  });

  it('changes with the limits of a fact it reads', () => {
    const documents = policy();
    const days = (documents['facts/catheter.json']!.facts as { id: string; limits?: number[] }[])[3]!;
    days.limits = [0, 500];
    expect(buildRelease(readLibrary(filesOf(documents)), 'removal').digest).not.toBe(
      digest(released('removal')),
    );
  });

  it.each([
    ['a rule without a document', 'removal/review.rule.json', 'missing-document'],
    ['a fact that nobody defines', 'facts/allergy.json', 'missing-reference'],
    ['a stock list without a document', 'equipment/stock/catheter.json', 'missing-document'],
  ])('is refused for %s', (_, path, code) => {
    const documents = policy();
    delete documents[path];
    const built = buildRelease(
      readLibrary(filesOf(documents)),
      path.startsWith('removal') ? 'removal' : 'equipment',
    );
    expect(built.release).toBeUndefined();
    expect(built.refused?.map((refusal) => refusal.code)).toContain(code);
  });

  it('is refused for a set, and for a hospital, that is not there', () => {
    expect(buildRelease(library, 'elsewhere').refused?.[0]?.code).toBe('unknown-set');
    expect(buildRelease(library, 'removal', { hospital: 'elsewhere' }).refused?.[0]?.code).toBe(
      'unknown-hospital',
    );
  });

  it('is never the published set where the amendment cannot be read', () => {
    const files = filesOf(policy()).set(
      'hospitals/hollow/amendment.json',
      '{ "$schema": "urn:dwellset:amendment:1" }',
    );
    const built = buildRelease(readLibrary(files), 'removal', { hospital: 'hollow' });
    expect(built.release).toBeUndefined();
    expect(built.refused?.[0]?.code).toBe('unsound-document');
  });
});

describe('running vignettes', () => {
  it('passes those that give what they must', () => {
    expect(runVignettes(library).filter(({ passed }) => !passed)).toEqual([]);
    expect(runVignettes(library, { set: 'removal' }).map(({ id }) => id)).toEqual([
      'day-20',
      'day-unknown',
      'day-10',
    ]);
  });

  it('says what was expected and what was found', () => {
    const documents = policy();
    const vignettes = documents['removal/overdue.vignettes.json']!.vignettes as { expect: unknown }[];
    vignettes[0]!.expect = {
      rules: { overdue: 'does-not-apply', nowhere: 'applies' },
      speaks: ['review'],
      ask: ['allergy.latex'],
      summary: { overdue: 'Something else.' },
      deciding: { overdue: ['catheter.stage'] },
      conclusion: { id: 'keep', settled: true },
      compliance: { all: 'true' },
      options: { catheter: { 'latex-14': 'open' } },
      first: { catheter: 'latex-14' },
      provisional: { catheter: true },
      nothingLeft: { catheter: ['overdue'] },
      problems: { 'catheter.stage': 'stale' },
    };
    const [result] = runVignettes(readLibrary(filesOf(documents)), { set: 'removal' });
    expect(result?.passed).toBe(false);
    expect(result?.mismatches).toEqual([
      { what: 'rules.overdue', expected: 'does-not-apply', received: 'applies' },
      { what: 'rules.nowhere', expected: 'applies', received: null },
      { what: 'speaks', expected: ['review'], received: ['overdue', 'review'] },
      {
        what: 'deciding.overdue',
        expected: ['catheter.stage'],
        received: ['catheter.days-in', 'catheter.stage'],
      },
      { what: 'ask', expected: ['allergy.latex'], received: expect.anything() },
      { what: 'conclusion.id', expected: 'keep', received: null },
      { what: 'conclusion.settled', expected: true, received: null },
      { what: 'compliance.all', expected: 'true', received: null },
      { what: 'options.catheter.latex-14', expected: 'open', received: null },
      { what: 'first.catheter', expected: 'latex-14', received: null },
      { what: 'provisional.catheter', expected: true, received: null },
      { what: 'nothingLeft.catheter', expected: ['overdue'], received: null },
      {
        what: 'summary.overdue',
        expected: 'Something else.',
        received: 'In place longer than 14 d: take it out.',
      },
      { what: 'problems.catheter.stage', expected: 'stale', received: null },
    ]);
  });

  /** The one vignette of the equipment set, with a rule that remarks on silicone, run with another expectation. */
  const equipped = (vignette: Json) => {
    const documents = policy();
    const ruleSet = documents['equipment/ruleset.json'] as { rules: string[] };
    ruleSet.rules.push('silicone-noted');
    documents['equipment/silicone-noted.rule.json'] = doc(
      'rule',
      rule('silicone-noted', {
        of: 'catheter',
        when: { fact: 'allergy.latex', operator: 'equal', value: true },
        remarks: { fact: 'option.material', operator: 'equal', value: 'silicone' },
      }),
    );
    const { vignettes } = documents['equipment/latex-allergy.vignettes.json'] as { vignettes: Json[] };
    vignettes[0] = { ...vignettes[0], ...vignette };
    return runVignettes(readLibrary(filesOf(documents)), { set: 'equipment' })[0]!.mismatches;
  };

  it('passes what is expected of remarks and of the item in the hand', () => {
    const expected = {
      remarks: { catheter: { 'silicone-12': ['silicone-noted'], 'latex-14': [] } },
      chosen: { catheter: { state: 'ruled-out', excludedBy: ['latex-allergy'], remarks: [] } },
    };
    expect(equipped({ chosen: { catheter: 'latex-14' }, expect: expected })).toEqual([]);
  });

  it('says which remarks were made instead, and that nothing is in the hand', () => {
    const expected = {
      remarks: { catheter: { 'silicone-12': [], 'latex-14': ['silicone-noted'], 'steel-12': [] } },
      chosen: { catheter: { state: 'open' } },
    };
    expect(equipped({ expect: expected })).toEqual([
      { what: 'remarks.catheter.silicone-12', expected: [], received: ['silicone-noted'] },
      { what: 'remarks.catheter.latex-14', expected: ['silicone-noted'], received: [] },
      { what: 'remarks.catheter.steel-12', expected: [], received: null },
      { what: 'chosen.catheter.state', expected: 'open', received: null },
    ]);
    expect(
      equipped({ chosen: { catheter: 'silicone-12' }, expect: { chosen: { catheter: { remarks: [] } } } }),
    ).toEqual([{ what: 'chosen.catheter.remarks', expected: [], received: ['silicone-noted'] }]);
  });

  it('takes an item in the hand that is not reported outside the set as excluded by nothing', () => {
    const outside = (expected: Json) => {
      const documents = policy();
      Object.assign(documents['equipment/ruleset.json'] as object, {
        scope: { fact: 'allergy.latex', operator: 'equal', value: false },
      });
      const { vignettes } = documents['equipment/latex-allergy.vignettes.json'] as { vignettes: Json[] };
      const chosen = { catheter: 'latex-14' };
      vignettes[0] = { ...vignettes[0], chosen, expect: { chosen: { catheter: expected } } };
      return runVignettes(readLibrary(filesOf(documents)), { set: 'equipment' })[0]!.mismatches;
    };
    expect(outside({ excludedBy: [] })).toEqual([]);
    expect(outside({ state: 'open' })).toEqual([
      { what: 'chosen.catheter.state', expected: 'open', received: null },
    ]);
    expect(outside({ excludedBy: ['latex-allergy'] })).toHaveLength(1);
  });

  it('fails every vignette of a set that does not build', () => {
    const documents = policy();
    delete documents['removal/review.rule.json'];
    const results = runVignettes(readLibrary(filesOf(documents)), { set: 'removal' });
    expect(results).toHaveLength(3);
    expect(results.every(({ passed, mismatches }) => !passed && mismatches[0]?.what === 'release')).toBe(
      true,
    );
  });
});
