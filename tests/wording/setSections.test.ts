import type { OptionResult, RuleSetResult } from '@dwellset/core';
import { assessmentText } from '@dwellset/wording';
import { expect, test } from 'vitest';
import { advice, assessment, fact, release, rule, ruleSet } from './fixtures.ts';

/** The part of the text that is about one set. */
function section(set: RuleSetResult): string {
  const text = assessmentText(assessment({ ruleSets: [set] }), { releases: [release] });
  const from = text.indexOf(`\n${set.title}\n`);
  return from < 0 ? '' : text.slice(from, text.indexOf('\n@dwellset/core'));
}

test('a settled conclusion is said to be settled', () => {
  const set = ruleSet({
    conclusion: { id: 'keep', title: 'Keep the catheter', settled: true, possible: ['keep'] },
  });
  expect(section(set)).toBe('\nRemoval\n\n  Keep the catheter – settled\n');
});

test('where nothing is concluded, a rule that was asked about and not met says what stood against it', () => {
  const asked = fact({ fact: 'indication.reasons', value: ['retention'] }, { operator: 'contains' });
  const against = fact(
    { fact: 'catheter.days-in', value: 1, unit: 'd' },
    { operator: 'greaterThan', expected: 2, parameter: 'review.interval', truth: 'false' },
  );
  const when = (first: boolean) => ({
    kind: 'all' as const,
    truth: 'false' as const,
    deciding: true,
    of: [{ ...asked, truth: first ? ('true' as const) : ('false' as const), deciding: !first }, against],
  });
  const weighed = rule('weighed', { title: 'Long enough', reasons: { when: when(true) } });
  const unasked = rule('unasked', { title: 'Not asked', reasons: { when: when(false) } });
  const open = section(ruleSet({ shape: 'decision', rules: [weighed, unasked] }));
  expect(open.replace(/\s+/g, ' ')).toContain(
    'Weighed, not met: "Long enough": calendar days in place: 1 day; what counts by local choice: 2 days',
  );
  expect(open).not.toContain('"Not asked"');
  const spoken = rule('spoken', { outcome: 'applies', concludes: 'keep' });
  expect(section(ruleSet({ shape: 'decision', rules: [weighed, spoken] }))).not.toContain('Weighed');
});

test('a checklist counts in ranges and parts not met, not recorded and not known', () => {
  const set = ruleSet({
    id: 'bundle',
    title: 'Insertion bundle',
    shape: 'checklist',
    compliance: { all: 'unknown', met: [4, 6], of: [6, 7] },
    rules: [
      rule('hands', { title: 'Hands decontaminated', check: 'not-met' }),
      rule('set', { title: 'Sterile set used', check: 'not-recorded' }),
      rule('fix', { title: 'Catheter secured', check: 'undetermined' }),
      rule('gel', { title: 'Gel used', check: 'met' }),
    ],
  });
  expect(section(set)).toBe(`
Insertion bundle

  4 to 6 met of 6 to 7 checks that apply · not known yet whether all are met
     Not met       Hands decontaminated
     Not recorded  Sterile set used
     Not known     Catheter secured
`);
});

const option = (id: string, parts: Partial<OptionResult>): OptionResult => ({
  id,
  title: id,
  state: 'open',
  excludedBy: [],
  undecided: [],
  preferredBy: [],
  remarks: [],
  facts: [],
  ...parts,
});

const size = rule('size', { title: 'Smallest size that drains' });
const latex = rule('latex', { title: 'Latex allergy' });

test('options stand in rank order, each with its state in words and assumed values marked', () => {
  const set = ruleSet({
    id: 'equipment',
    title: 'Equipment',
    shape: 'choice',
    rules: [size, latex],
    choices: [
      {
        of: 'catheter',
        provisional: true,
        options: [
          option('All-silicone 12 Ch', {
            rank: 1,
            facts: [
              { fact: 'catheter.days-in', value: 84, unit: 'd', assumed: true },
              { fact: 'catheter.material', value: 'silicone' },
            ],
          }),
          option('PVC 12 Ch', {
            state: 'to-confirm',
            rank: 1,
            undecided: ['size'],
            remarks: [{ rule: 'size', summary: 'Stays in for a week at most' }],
          }),
          option('Latex 14 Ch', { state: 'held', rank: 3, undecided: ['latex'] }),
          option('Latex 16 Ch', { state: 'ruled-out', excludedBy: ['latex', 'size'] }),
        ],
        chosen: option('Latex 16 Ch', { state: 'ruled-out', excludedBy: ['latex'] }),
      },
    ],
  });
  const advised = assessmentText(
    assessment({ ruleSets: [set], advice: [advice('latex', { set: 'equipment', chosen: 'catheter' })] }),
  );
  expect(advised).toContain('About    the item in the hand: Latex 16 Ch\n');
  expect(section(set)).toBe(`
Equipment

  Catheter – 3 of 4 left, order not yet settled
  1  All-silicone 12 Ch · open · calendar days in place: 84 days, assumed
  1  PVC 12 Ch · to confirm, not yet decided: "Smallest size that drains"
       Stays in for a week at most
  3  Latex 14 Ch · held, a stop is not yet decided: "Latex allergy"
  –  Latex 16 Ch · ruled out by "Latex allergy" and "Smallest size that drains"
  In the hand: Latex 16 Ch · ruled out by "Latex allergy"
`);
});

test('says so where nothing in stock suits, with the fewest rules that leave nothing', () => {
  const set = ruleSet({
    id: 'equipment',
    title: 'Equipment',
    shape: 'choice',
    rules: [latex],
    choices: [
      {
        of: 'catheter',
        provisional: false,
        options: [option('Latex 16 Ch', { state: 'ruled-out', excludedBy: ['latex'] })],
        nothingLeft: ['latex'],
      },
    ],
  });
  expect(section(set)).toContain('  Nothing in stock suits: ruled out by "Latex allergy".\n');
});

test('a patient outside the population gets the sentence of the set and nothing more', () => {
  const set = ruleSet({ population: 'out', outside: 'This set is for adults.' });
  expect(section(set)).toBe('\nRemoval\n\n  This set is for adults.\n');
});
