import { buildRelease, type Library, proveLocked, runVignettes } from '@dwellset/authoring';
import { digest } from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { amendedPolicy, localPolicy, rule, withBase } from './fixture.ts';

const built = (library: Library, set: string) => buildRelease(library, set, { hospital: 'hollow' });

function effective(library: Library, set: string) {
  const { release, refused } = built(library, set);
  expect(refused).toBeUndefined();
  return release!;
}

const refusals = (library: Library, set = 'removal') => {
  const { release, refused = [] } = built(library, set);
  expect(release).toBeUndefined();
  return refused.map(({ code, message }) => ({ code, message }));
};

const ruleOf = (library: Library, set: string, id: string) =>
  effective(library, set).rules.find((r) => r.id === id)!;

describe('an amendment', () => {
  it('sets a parameter in every set that uses it, and says so in each', () => {
    const library = amendedPolicy({ removal: [{ set: { 'dwell.longest': 7 } }] });
    for (const set of ['removal', 'reason']) {
      const release = effective(library, set);
      expect(release.parameters.find(({ id }) => id === 'dwell.longest')?.value).toBe(7);
      expect(release.amendment?.changes).toEqual([
        { item: 'dwell.longest', change: 'set', from: '14', to: '7', reason: 'Local reason.' },
      ]);
      expect(release.amendment?.base).toEqual({
        version: '0.1.0',
        digest: buildRelease(library, set).digest,
      });
    }
    expect(effective(library, 'equipment').amendment).toBeUndefined();
    expect(built(library, 'equipment').digest).toBe(buildRelease(library, 'equipment').digest);
  });

  it('lets the evidence of the position it picks speak with every rule that rests on the choice', () => {
    const library = amendedPolicy({ removal: [{ set: { 'dwell.longest': 7 } }] });
    expect(ruleOf(library, 'removal', 'overdue').evidence).toEqual(['ev-review', 'ev-short']);
    expect(ruleOf(library, 'removal', 'review').evidence).toEqual(['ev-review']);
  });

  it('takes a value of its own with evidence from a local policy, which then travels with the release', () => {
    const library = amendedPolicy(
      { removal: [{ set: { 'dwell.review': 2 }, evidence: ['hollow-says'] }] },
      localPolicy,
    );
    const release = effective(library, 'removal');
    expect(release.parameters.find(({ id }) => id === 'dwell.review')?.positions.at(-1)).toEqual({
      value: 2,
      evidence: ['hollow-says'],
    });
    expect(release.evidence.map(({ id }) => id)).toContain('hollow-says');
    expect(release.sources.map(({ id }) => id)).toContain('hollow-policy');
  });

  it('sets one cell of a table', () => {
    const library = amendedPolicy({ equipment: [{ set: { 'dwell.by-material/latex/days': 14 } }] });
    const release = effective(library, 'equipment');
    expect(release.tables[0]?.rows.latex?.days?.value).toBe(14);
    expect(release.rules.find(({ id }) => id === 'long-stay')?.evidence).toEqual(['ev-review', 'ev-short']);
    expect(release.rules.find(({ id }) => id === 'latex-allergy')?.evidence).toEqual(['ev-review']);
  });

  it('gives a code that had none a row of its own', () => {
    const change = { set: { 'dwell.by-material/pvc/days': 5 }, evidence: ['hollow-says'] };
    const release = effective(amendedPolicy({ equipment: [change] }, localPolicy), 'equipment');
    expect(release.tables[0]?.rows.pvc?.days?.value).toBe(5);
  });

  it('switches off, replaces, rewords and adds unlocked rules, each marked with its reason', () => {
    const library = amendedPolicy(
      {
        removal: [
          { switchOff: 'bypassing' },
          {
            replace: rule('review', { when: { fact: 'catheter.bypassing', operator: 'equal', value: true } }),
          },
          {
            add: rule('local', {
              when: { fact: 'local.ready', operator: 'equal', value: true },
              advice: { summary: 'Ready.', indicator: 'info' },
            }),
            after: 'overdue',
          },
        ],
      },
      { facts: [{ id: 'local.ready', type: 'boolean', title: 'Ready', question: 'Is it ready?' }] },
    );
    const release = effective(library, 'removal');
    expect(release.rules.map(({ id, local }) => [id, local?.change])).toEqual([
      ['overdue', undefined],
      ['local', 'added'],
      ['infected', undefined],
      ['review', 'replaced'],
      ['bypassing', 'switched-off'],
    ]);
    expect(release.rules[1]?.local?.reason).toBe('Local reason.');
    expect(release.facts.map(({ id }) => id)).toEqual([
      'catheter.stage',
      'catheter.inserted-at',
      'catheter.days-in',
      'catheter.signs',
      'catheter.bypassing',
      'local.ready',
      'removal.signs-counted',
    ]);
    expect(release.amendment?.changes.map(({ item, change }) => `${item} ${change}`)).toEqual([
      'bypassing switched-off',
      'review replaced',
      'local added',
    ]);
  });

  it('rewords an unlocked rule, keeping what it does not name', () => {
    const library = amendedPolicy({ removal: [{ reword: { rule: 'review', summary: 'Review it.' } }] });
    const { advice, local, title } = ruleOf(library, 'removal', 'review');
    expect(advice).toEqual({ summary: 'Review it.', detail: ['Step one.'], indicator: 'warning' });
    expect([local?.change, title]).toEqual(['reworded', 'Title of review']);
    expect(effective(library, 'removal').amendment?.changes).toEqual([
      {
        item: 'review/summary',
        change: 'reworded',
        from: 'Summary of review.',
        to: 'Review it.',
        reason: 'Local reason.',
      },
    ]);
  });

  it('replaces a stock list', () => {
    const options = [{ id: 'pvc-10', title: 'PVC 10 Ch', facts: { 'option.material': 'pvc' } }];
    const library = amendedPolicy({
      equipment: [{ stock: { of: 'catheter', title: 'Local stock', options } }],
    });
    expect(effective(library, 'equipment').stock).toEqual({ catheter: options });
  });

  it('adds text to a locked rule and raises it, and leaves its own words alone', () => {
    const library = amendedPolicy({
      removal: [
        { addText: { rule: 'overdue', detail: ['Ring ward ten.'] } },
        { raise: { rule: 'infected', indicator: 'critical' } },
      ],
    });
    const overdue = ruleOf(library, 'removal', 'overdue');
    expect(overdue.advice?.detail).toEqual(['Step one.', 'Ring ward ten.']);
    expect(overdue.advice?.summary).toBe('In place longer than {{dwell.longest}} d: take it out.');
    expect(overdue.local).toBeUndefined();
    expect(ruleOf(library, 'removal', 'infected').advice?.indicator).toBe('critical');
    expect(proveLocked(library, 'hollow').lost).toEqual([]);
  });

  it('is part of what the digest covers', () => {
    const library = amendedPolicy({ removal: [{ reword: { rule: 'review', because: 'Other words.' } }] });
    expect(built(library, 'removal').digest).toBe(digest(effective(library, 'removal')));
    expect(built(library, 'removal').digest).not.toBe(buildRelease(library, 'removal').digest);
  });

  it('is run by the vignettes of its hospital', () => {
    const library = amendedPolicy({ removal: [{ set: { 'dwell.longest': 7 } }] });
    const failing = runVignettes(library, { hospital: 'hollow', set: 'removal' }).filter(
      ({ passed }) => !passed,
    );
    expect(failing.map(({ id }) => id)).toEqual(['day-20', 'day-10']);
  });
});

describe('an amendment is refused, as a whole and with its reason', () => {
  it('where one of its changes may not be, though the others may', () => {
    const library = amendedPolicy({ removal: [{ switchOff: 'bypassing' }, { switchOff: 'overdue' }] });
    expect(refusals(library)).toHaveLength(1);
    expect(refusals(library, 'reason')).toHaveLength(1);
  });

  it.each([
    ['out of range', { 'dwell.longest': 91 }, 'out-of-range', '`dwell.longest` may not be `91`'],
    [
      'between two steps',
      { 'dwell.longest': 7.5 },
      'between-steps',
      '`dwell.longest` is stated in steps of 1, and `7.5` lies between two',
    ],
    ['of another type', { 'dwell.longest': 'long' }, 'wrong-type', '`dwell.longest` cannot be set to `long`'],
    [
      'not in the code list',
      { 'dwell.signs': ['fever', 'cough'] },
      'unlisted-code',
      '`cough` is not in the code list of `dwell.signs`',
    ],
    [
      'of no parameter',
      { 'dwell.shortest': 3 },
      'unknown-choice',
      '`dwell.shortest` names no parameter and no cell of a table',
    ],
    [
      'of no cell',
      { 'dwell.by-material/gold/days': 3 },
      'unknown-choice',
      '`dwell.by-material/gold/days` names no parameter and no cell of a table',
    ],
    [
      'that no source stands for',
      { 'dwell.review': 2 },
      'no-local-source',
      'no published position of `dwell.review` is `2`, so it needs evidence from a local policy',
    ],
    [
      'that the set does not use',
      { 'dwell.by-material/latex/days': 14 },
      'unused-choice',
      '`removal` does not use `dwell.by-material/latex/days`',
    ],
  ])('for a value %s', (_, set, code, message) => {
    expect(refusals(amendedPolicy({ removal: [{ set }] }))).toEqual([{ code, message }]);
  });

  it('for a value of its own whose evidence is no local policy', () => {
    const change = { set: { 'dwell.review': 2 }, evidence: ['ev-short'] };
    expect(refusals(amendedPolicy({ removal: [change] }))[0]?.code).toBe('no-local-source');
    const cited = { set: { 'dwell.review': 2 }, evidence: ['nowhere'] };
    expect(refusals(amendedPolicy({ removal: [cited] })).map(({ code }) => code)).toEqual([
      'unknown-evidence',
      'no-local-source',
    ]);
  });

  it('where two sets are given two values of one parameter', () => {
    const library = amendedPolicy({
      removal: [{ set: { 'dwell.longest': 7 } }],
      reason: [{ set: { 'dwell.longest': 14 } }],
    });
    expect(refusals(library)).toEqual([
      {
        code: 'changed-twice',
        message: '`dwell.longest` is already set to `7`, and one value holds for every set',
      },
    ]);
  });

  it('where one change undoes another', () => {
    const library = amendedPolicy({
      removal: [{ switchOff: 'review' }, { reword: { rule: 'review', title: 'Other' } }],
    });
    expect(refusals(library)[0]).toEqual({
      code: 'changed-twice',
      message: '`review` is already changed at `/amends/0/changes/0`',
    });
  });

  it('where it names a rule, a stock list or a set that is not there', () => {
    expect(refusals(amendedPolicy({ removal: [{ switchOff: 'nothing' }] }))[0]?.code).toBe('unknown-rule');
    expect(refusals(amendedPolicy({ nowhere: [{ switchOff: 'nothing' }] }))[0]?.code).toBe('unknown-set');
    const stock = { of: 'gel', title: 'Gel', options: [{ id: 'gel', title: 'Gel', facts: {} }] };
    expect(refusals(amendedPolicy({ equipment: [{ stock }] }), 'equipment')[0]?.code).toBe('unknown-stock');
  });

  it('where a rule refers to what nobody defines', () => {
    const add = rule('local', {
      when: { all: [{ fact: 'local.ready', operator: 'recorded' }, { condition: 'nowhere' }] },
      advice: { summary: 'Within {{dwell.shortest}} d.', indicator: 'info' },
      evidence: ['nowhere'],
      supersedes: ['nothing'],
    });
    expect(
      refusals(amendedPolicy({ removal: [{ add }] }))
        .map(({ code }) => code)
        .sort(),
    ).toEqual([
      'unknown-condition',
      'unknown-evidence',
      'unknown-fact',
      'unknown-placeholder',
      'unknown-rule',
    ]);
  });

  it('where raising would not raise', () => {
    const library = amendedPolicy({ removal: [{ raise: { rule: 'review', indicator: 'info' } }] });
    expect(refusals(library)).toEqual([
      { code: 'not-raised', message: '`review` is `warning`, and raising cannot make it `info`' },
    ]);
  });

  it('where an added rule takes the id of a published one', () => {
    expect(refusals(amendedPolicy({ removal: [{ add: rule('review', {}) }] }))[0]?.code).toBe('shadowed-id');
  });

  it('where local evidence or a local source takes the name of a published one, or is not local', () => {
    const evidence = [{ ...localPolicy.evidence[0], id: 'ev-short' }];
    expect(
      refusals(amendedPolicy({ removal: [{ switchOff: 'review' }] }, { ...localPolicy, evidence }))[0]?.code,
    ).toBe('shadowed-id');
    const sources = [{ ...localPolicy.sources[0], kind: 'guideline' }];
    expect(refusals(amendedPolicy({ removal: [{ switchOff: 'review' }] }, { sources }))[0]?.code).toBe(
      'not-local',
    );
  });
});

describe('an amendment of another base', () => {
  it('is refused, and answered with what stands at each amended item now', () => {
    const library = amendedPolicy({
      removal: [
        { switchOff: 'gone' },
        { switchOff: 'bypassing' },
        { set: { 'dwell.longest': 7, 'dwell.shortest': 1 } },
      ],
    });
    const stale = withBase(library, { digest: 'f'.repeat(64) });
    expect(
      built(stale, 'removal').refused?.map(({ code, severity, message }) => [code, severity, message]),
    ).toEqual([
      [
        'other-digest',
        'error',
        'the amendment was made for another text of `removal` 0.1.0 than the published one',
      ],
      ['amended-item', 'warning', '`gone` no longer exists'],
      ['amended-item', 'warning', '`bypassing` now reads `Bypassing: look for the cause.`'],
      ['amended-item', 'warning', '`dwell.longest` now reads `14`'],
      ['amended-item', 'warning', '`dwell.shortest` no longer exists'],
    ]);
  });

  it('is refused for another version', () => {
    const library = withBase(amendedPolicy({ removal: [{ switchOff: 'bypassing' }] }), { version: '0.2.0' });
    expect(built(library, 'removal').refused?.[0]).toMatchObject({
      code: 'other-version',
      pointer: '/amends/0/version',
      expected: '0.1.0',
      received: '0.2.0',
    });
  });
});
