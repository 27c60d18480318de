import { CAUTIONS } from '@dwellset/core';
import { type CaseScoreShown, scoreboardText } from '@dwellset/wording';
import { describe, expect, it } from 'vitest';

const flat = (text: string): string => text.replace(/\s+/g, ' ');
const one = (rest: Partial<CaseScoreShown>): CaseScoreShown => ({
  id: 'bed-rest',
  locator: 'Table 2',
  status: 'reported',
  says: 'Bed rest is a reason.',
  verdict: 'agreed',
  judged: [],
  fed: true,
  conflicts: [],
  range: { line: 7, column: 5 },
  ...rest,
});
const text = (...cases: CaseScoreShown[]): string =>
  scoreboardText([{ id: 'guide', title: 'A guide', path: 'published/guide.key.json', cases }]);
const disagreed = one({
  verdict: 'disagreed',
  judged: [
    {
      part: 'conclusion',
      verdict: 'disagreed',
      expected: ['supported'],
      received: 'not-supported',
      by: [{ set: 'indication', rule: 'bed-rest', title: 'Bed rest', evidence: ['A-1', 'A-2'] }],
      asks: [],
    },
  ],
  conflicts: [
    { choice: 'bed.days', title: 'days of bed rest', here: 3, there: 5, unit: 'd', evidence: ['A-2'] },
  ],
});

describe('the scoreboard', () => {
  it('says what agreement by transcription is worth, and carries the cautions', () => {
    const said = flat(text(one({}), one({ fed: false })));
    expect(said).toContain('guide 2 2 0 0 transcription in 1');
    expect(said).toContain('2 agreed (1 independent, 1 by transcription); none disagreed');
    expect(said).toContain('the row was copied rightly and no more');
    for (const caution of CAUTIONS) expect(said).toContain(caution);
  });

  it('calls a key independent where the rules rest on none of its rows', () => {
    expect(text(one({ fed: false }))).toMatch(/^guide .* independent$/m);
    expect(text(one({}))).toMatch(/^guide .* transcription$/m);
  });

  it('names the rule, its rows, the place and the local choice behind a disagreement', () => {
    const said = flat(text({ ...disagreed, differs: 'The narrow reading.' }));
    expect(said).toContain('published/guide.key.json:7:5 Disagrees: Bed rest is a reason.');
    expect(said).toContain('Source Table 2 · as reported, not read in the source');
    expect(said).toContain('concludes "not-supported" (`indication/bed-rest`, resting on A-1 and A-2)');
    expect(said).toContain(
      'they disagree on the local choice "days of bed rest": here 3 days; with 5 days (A-2) it would agree',
    );
    expect(said).toContain('Reason The narrow reading.');
    expect(said).toContain(
      '1 disagreed (each with a recorded reason, 1 where the sources themselves disagree)',
    );
  });

  it('says aloud that a disagreement has no recorded reason', () => {
    const said = flat(text(disagreed));
    expect(said).toContain('Reason No reason is recorded.');
    expect(said).toContain('1 without a recorded reason');
  });

  it('says why an answer cannot be decided and what it would ask', () => {
    const judged = {
      part: 'advice',
      verdict: 'not-decidable',
      expected: true,
      received: null,
      by: [],
    } as const;
    const open = one({
      verdict: 'not-decidable',
      judged: [{ ...judged, undecided: 'open', asks: ['a.b', 'a.c', 'a.d', 'a.e'] }],
    });
    expect(flat(text(open))).toContain('left open; it would ask for a.b, a.c, a.d and 1 more');
    const none = one({ verdict: 'not-decidable', judged: [{ ...judged, undecided: 'no-rule', asks: [] }] });
    expect(flat(text(none))).toContain('no rule rests on this yet');
  });

  it('shows only the difference of two lists', () => {
    const lists = { choice: 'x.y', title: 'reasons', here: ['a', 'b'], there: ['b', 'c'], evidence: ['A-1'] };
    const said = flat(text({ ...disagreed, conflicts: [lists] }));
    expect(said).toContain('"reasons"; with c and without a (A-1) it would agree');
  });

  it('notes a recorded reason that is no longer needed', () => {
    expect(flat(text(one({ differs: 'Once so.' })))).toContain(
      'No longer needed: the recorded reason of bed-rest.',
    );
  });

  it('says that there is no key', () => {
    expect(scoreboardText([])).toContain('No answer key was found.');
  });

  it('keeps to the width', () => {
    for (const line of text({ ...disagreed, differs: 'Because.' }).split('\n'))
      expect(line.length).toBeLessThanOrEqual(80);
  });
});
