import { buildRelease, type Library, proveLocked, readLibrary } from '@dwellset/authoring';
import { describe, expect, it } from 'vitest';
import { amendedPolicy, filesOf, localPolicy, policy } from './fixture.ts';
import { rule } from './invented/documents.ts';

/** What one refused amendment was refused for. */
function refusals(library: Library, set = 'removal'): string[][] {
  const { release, refused = [] } = buildRelease(library, set, { hospital: 'hollow' });
  expect(release).toBeUndefined();
  return refused.map(({ code, message }) => [code, message]);
}

const stands = (library: Library, set = 'removal'): void => {
  const { release, refused } = buildRelease(library, set, { hospital: 'hollow' });
  expect(refused).toBeUndefined();
  expect(release?.amendment).toBeDefined();
};

const info = { summary: 'Note.', indicator: 'info' };
const bypassing = { fact: 'catheter.bypassing', operator: 'equal', value: true };
const local = (rest: Record<string, unknown>) => rule('local', { when: bypassing, advice: info, ...rest });

describe('a locked rule', () => {
  it('is not switched off', () => {
    expect(refusals(amendedPolicy({ removal: [{ switchOff: 'overdue' }] }))).toEqual([
      ['locked-switched-off', '`overdue` is locked and may not be switched off'],
    ]);
  });

  it('is not replaced', () => {
    expect(refusals(amendedPolicy({ removal: [{ replace: rule('overdue', { when: bypassing }) }] }))).toEqual(
      [['locked-replaced', '`overdue` is locked and may not be replaced']],
    );
  });

  it('is not reworded', () => {
    expect(
      refusals(amendedPolicy({ removal: [{ reword: { rule: 'overdue', summary: 'Perhaps.' } }] })),
    ).toEqual([['locked-reworded', '`overdue` is locked and may not be reworded']]);
  });

  it('is not lowered', () => {
    expect(refusals(amendedPolicy({ removal: [{ raise: { rule: 'overdue', indicator: 'info' } }] }))).toEqual(
      [['not-raised', '`overdue` is `critical`, and raising cannot make it `info`']],
    );
  });

  it('keeps its parameters from moving away from the cautious side, in whichever set they are set', () => {
    const message =
      'the locked rule `reason/must-go` rests on `dwell.longest`, so it may only move to the cautious side';
    expect(refusals(amendedPolicy({ removal: [{ set: { 'dwell.longest': 28 } }] }))).toEqual([
      ['locked-parameter', message],
    ]);
    expect(refusals(amendedPolicy({ reason: [{ set: { 'dwell.longest': 28 } }] }))[0]?.[0]).toBe(
      'locked-parameter',
    );
    stands(amendedPolicy({ removal: [{ set: { 'dwell.longest': 7 } }] }));
  });

  it('keeps a parameter of a derivation it rests on from losing codes', () => {
    const none = { set: { 'dwell.signs': ['pain'] }, evidence: ['hollow-says'] };
    expect(refusals(amendedPolicy({ removal: [none] }, localPolicy))[0]?.[0]).toBe('locked-parameter');
    const more = { set: { 'dwell.signs': ['fever', 'pain'] }, evidence: ['hollow-says'] };
    stands(amendedPolicy({ removal: [more] }, localPolicy));
  });

  it('keeps a choice without a cautious side as it is', () => {
    const documents = policy();
    (documents['choices/dwell.json']!.parameters as { cautious: string }[])[0]!.cautious = 'neither';
    expect(
      refusals(amendedPolicy({ removal: [{ set: { 'dwell.longest': 7 } }] }, {}, documents))[0]?.[0],
    ).toBe('locked-parameter');
  });

  it('keeps a cell of a table it rests on from rising, and from being emptied', () => {
    const documents = policy();
    const table = { fact: 'option.table-dwell', operator: 'lessThan', value: 10 };
    Object.assign(documents['equipment/latex-allergy.rule.json']!, { excludes: table });
    const change = (value: number | null) =>
      amendedPolicy(
        { equipment: [{ set: { 'dwell.by-material/silicone/days': value }, evidence: ['hollow-says'] }] },
        localPolicy,
        documents,
      );
    expect(refusals(change(90), 'equipment')[0]?.[0]).toBe('locked-parameter');
    expect(refusals(change(null), 'equipment')[0]?.[0]).toBe('locked-parameter');
    stands(change(20), 'equipment');
  });

  it('is not folded by an added rule', () => {
    expect(refusals(amendedPolicy({ removal: [{ add: local({ supersedes: ['infected'] }) }] }))).toEqual([
      ['locked-folded', '`local` would fold the locked rule `infected`'],
    ]);
  });

  it('is not folded by a replaced rule', () => {
    const replace = rule('review', { when: bypassing, supersedes: ['overdue'] });
    expect(refusals(amendedPolicy({ removal: [{ replace }] }))).toEqual([
      ['locked-folded', '`review` would fold the locked rule `overdue`'],
    ]);
  });

  it('is not folded through a chain of rules', () => {
    const replace = rule('bypassing', { when: bypassing, advice: info, supersedes: ['infected'] });
    expect(refusals(amendedPolicy({ removal: [{ replace }] }))).toEqual([
      ['locked-folded', '`review` would fold the locked rule `infected`'],
      ['locked-folded', '`bypassing` would fold the locked rule `infected`'],
    ]);
  });

  it('does not lose its conclusion to an added rule that concludes something stronger', () => {
    const add = local({ concludes: 'stop' });
    expect(refusals(amendedPolicy({ reason: [{ add }] }), 'reason')).toEqual([
      [
        'locked-conclusion',
        '`local` concludes `stop`, which would take the place of `take-out` from the locked rule `must-go`',
      ],
    ]);
    stands(amendedPolicy({ reason: [{ add: local({ concludes: 'keep' }) }] }), 'reason');
  });

  it('does not lose its conclusion to a stronger rule that is made to apply elsewhere', () => {
    const wider = rule('blocked', {
      when: { fact: 'catheter.bypassing', operator: 'recorded' },
      concludes: 'stop',
    });
    expect(refusals(amendedPolicy({ reason: [{ replace: wider }] }), 'reason')[0]?.[0]).toBe(
      'locked-conclusion',
    );
    const same = rule('blocked', { when: bypassing, concludes: 'stop', because: 'In other words.' });
    stands(amendedPolicy({ reason: [{ replace: same }] }), 'reason');
  });

  it('is not outranked by added advice: not by its indicator, not by its place', () => {
    const urgent = local({ advice: { summary: 'Now.', indicator: 'critical' } });
    expect(refusals(amendedPolicy({ removal: [{ add: urgent }] }))).toEqual([
      ['locked-outranked', 'the advice of `local` would stand above that of the locked rule `infected`'],
    ]);
    const early = local({ advice: { summary: 'Soon.', indicator: 'warning' } });
    expect(refusals(amendedPolicy({ removal: [{ add: early, after: 'overdue' }] }))[0]?.[0]).toBe(
      'locked-outranked',
    );
    stands(amendedPolicy({ removal: [{ add: early, after: 'infected' }] }));
  });

  it('is not outranked by an unlocked rule that is raised or replaced', () => {
    const raise = { rule: 'bypassing', indicator: 'critical' };
    expect(refusals(amendedPolicy({ removal: [{ raise }] }))[0]?.[0]).toBe('locked-outranked');
    const replace = rule('bypassing', {
      when: bypassing,
      advice: { summary: 'Now.', indicator: 'critical' },
    });
    expect(refusals(amendedPolicy({ removal: [{ replace }] }))[0]?.[0]).toBe('locked-outranked');
    stands(amendedPolicy({ removal: [{ raise }, { raise: { rule: 'infected', indicator: 'critical' } }] }));
  });

  it('keeps its preference before those that are added', () => {
    const prefers = { options: { fact: 'option.material', operator: 'equal', value: 'latex' } };
    const add = rule('local', { of: 'catheter', prefers, advice: undefined });
    expect(refusals(amendedPolicy({ equipment: [{ add, after: 'latex-allergy' }] }), 'equipment')).toEqual([
      ['locked-outranked', 'the preference of `local` would count before that of the locked rule `smallest`'],
    ]);
    stands(amendedPolicy({ equipment: [{ add }] }), 'equipment');
  });

  it('stands beside no local lock', () => {
    expect(refusals(amendedPolicy({ removal: [{ add: local({ locked: true }) }] }))).toEqual([
      ['local-lock', '`local` is a local rule, and only published rules are locked'],
    ]);
  });

  it.each([
    ['a fact of the dictionary', 'catheter.days-in'],
    ['a fact that `removal` derives', 'removal.signs-counted'],
    ['a published parameter', 'dwell.longest'],
    ['a published table', 'dwell.by-material'],
  ])('is not starved by a local fact that takes the name of %s', (by, id) => {
    const facts = [{ id, type: 'boolean', title: 'Mine', question: 'Mine?' }];
    expect(refusals(amendedPolicy({ removal: [{ switchOff: 'bypassing' }] }, { facts }))).toEqual([
      ['shadowed-id', `\`${id}\` is already ${by} and may not be stated again`],
    ]);
  });

  it('is not starved by a local instant that makes a published one conflicting', () => {
    const facts = [
      {
        id: 'local.seen-at',
        type: 'date-time',
        notBefore: 'catheter.inserted-at',
        title: 'Seen',
        question: 'When?',
      },
    ];
    expect(refusals(amendedPolicy({ removal: [{ switchOff: 'bypassing' }] }, { facts }))[0]?.[0]).toBe(
      'local-order',
    );
  });

  it('is not starved by local stock that states what follows from other facts', () => {
    const options = [
      {
        id: 'own',
        title: 'Own',
        facts: { 'option.material': 'latex', 'option.table-dwell': { value: 90, unit: 'd' } },
      },
    ];
    const library = amendedPolicy({ equipment: [{ stock: { of: 'catheter', title: 'Own', options } }] });
    expect(refusals(library, 'equipment')[0]?.[0]).toBe('derived-in-stock');
  });
});

describe('the proof that locked rules stand', () => {
  it('compares every vignette of every locked rule', () => {
    const library = amendedPolicy({ removal: [{ switchOff: 'bypassing' }] });
    expect(proveLocked(library, 'hollow')).toEqual({ compared: 4, lost: [] });
  });

  it('lets a cautious choice make a locked rule speak sooner, in the words it was published with', () => {
    const library = amendedPolicy({ removal: [{ set: { 'dwell.longest': 7 } }] });
    expect(proveLocked(library, 'hollow').lost).toEqual([]);
  });

  it('names the vignette where a choice called cautious silences the rule', () => {
    const documents = policy();
    // The author states the wrong side: for this rule a longer dwell means that it speaks later.
    (documents['choices/dwell.json']!.parameters as { cautious: string }[])[0]!.cautious = 'higher';
    const library = amendedPolicy({ removal: [{ set: { 'dwell.longest': 28 } }] }, {}, documents);
    expect(proveLocked(library, 'hollow').lost).toEqual([
      {
        set: 'removal',
        rule: 'overdue',
        vignette: 'day-20',
        what: 'outcome',
        published: 'applies',
        amended: 'does-not-apply',
      },
    ]);
  });

  it('proves nothing where the amendment is refused, and says so for every vignette', () => {
    const { compared, lost } = proveLocked(amendedPolicy({ removal: [{ switchOff: 'overdue' }] }), 'hollow');
    expect(compared).toBe(0);
    expect(lost.map(({ what, vignette }) => [what, vignette])).toEqual([
      ['release', 'allergic'],
      ['release', 'day-20'],
      ['release', 'day-unknown'],
      ['release', 'day-10'],
    ]);
  });

  it('holds trivially where a hospital amends nothing', () => {
    expect(proveLocked(readLibrary(filesOf(policy())), 'hollow')).toEqual({ compared: 4, lost: [] });
  });
});
