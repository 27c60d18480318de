import { buildRelease, type Library, proveLocked, runVignettes } from '@dwellset/authoring';
import { digest } from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { amendedPolicy, localPolicy } from './fixture.ts';
import { rule } from './invented/documents.ts';

const built = (library: Library, set: string) => buildRelease(library, set, { hospital: 'hollow' });

function effective(library: Library, set: string) {
  const { release, refused } = built(library, set);
  expect(refused).toBeUndefined();
  return release!;
}

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
