import { buildRelease, type Library } from '@dwellset/authoring';
import { describe, expect, it } from 'vitest';
import { amendedPolicy, localPolicy, withBase } from './fixture.ts';
import { rule } from './invented/documents.ts';

const built = (library: Library, set: string) => buildRelease(library, set, { hospital: 'hollow' });

const refusals = (library: Library, set = 'removal') => {
  const { release, refused = [] } = built(library, set);
  expect(release).toBeUndefined();
  return refused.map(({ code, message }) => ({ code, message }));
};

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
