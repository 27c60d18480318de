import { coverageText, type SetCoverageShown } from '@dwellset/wording';
import { expect, test } from 'vitest';
import { release } from './fixtures.ts';

const at = (line: number, path = 'removal/overdue.rule.json') => ({ path, range: { line, column: 5 } });
const none = { covered: 0, uncovered: 0, impossible: 0, percent: 100 };
const totals = { outcomes: none, truths: none, alone: none, limits: none, options: none };
const condition = { fact: 'catheter.days-in', operator: 'greaterThan', value: 14 } as const;
const home = { rule: 'overdue', part: 'when' };
const set: SetCoverageShown = {
  set: 'removal',
  vignettes: 12,
  totals: {
    ...totals,
    outcomes: { covered: 3, uncovered: 1, impossible: 0, percent: 75 },
    truths: { covered: 2, uncovered: 1, impossible: 0, percent: 66.6 },
    alone: { covered: 0, uncovered: 0, impossible: 1, percent: 100 },
    options: { covered: 1, uncovered: 0, impossible: 1, percent: 100 },
  },
  rules: [{ rule: 'overdue', place: at(1), goals: [{ what: 'undetermined', state: 'uncovered' }] }],
  conditions: [
    {
      home,
      condition,
      place: at(9),
      goals: [
        { what: 'true', state: 'covered' },
        { what: 'unknown', state: 'uncovered' },
        {
          what: 'alone',
          state: 'impossible',
          proof: { combinations: 12, facts: ['catheter.days-in', 'catheter.stage'] },
        },
      ],
    },
  ],
  limits: [
    {
      home,
      condition,
      place: at(9),
      goals: [
        { what: 'below', state: 'uncovered' },
        { what: 'at', state: 'impossible', proof: { combinations: 1, facts: ['catheter.days-in'] } },
        { what: 'above', state: 'uncovered' },
      ],
    },
  ],
  options: [
    {
      of: 'catheter',
      option: 'latex-14',
      place: at(4, 'removal/stock/catheter.json'),
      goals: [{ what: 'ruled-out', state: 'impossible', proof: { combinations: 0, facts: [] } }],
    },
  ],
  remarks: [
    {
      of: 'catheter',
      rule: 'overdue',
      place: at(12),
      goals: [{ what: 'remarked', state: 'uncovered' }],
    },
  ],
};

test('totals come first, then what no vignette shows, then what none can show, each at its place', () => {
  const text = coverageText({ sets: [set] }, { releases: [release], shown: (path) => `policies/${path}` });
  expect(`\n${text}`).toBe(`
removal: covered by 12 vignettes
  outcomes of rules                       3 of    4   75.0 %
  conditions seen true, false, unknown    2 of    3   66.6 %
  conditions that decide alone            0 of    0  100.0 %  1 proven impossible
  options kept, ruled out, remarked on    1 of    1  100.0 %  1 proven impossible

Not covered in removal

policies/removal/overdue.rule.json:1:5
  rule overdue – never undetermined
policies/removal/overdue.rule.json:9:5
  overdue, when: calendar days in place are more than 14 days – never unknown,
  met just below or met just above
policies/removal/overdue.rule.json:12:5
  rule overdue – never seen with its remark on an item

Proven impossible in removal

policies/removal/overdue.rule.json:9:5
  overdue, when: calendar days in place are more than 14 days – never deciding
  alone, once true and once false: none of 12 combinations of 2 facts; never met
  exactly at: the fact cannot have that value
policies/removal/stock/catheter.json:4:5
  catheter latex-14 – never ruled out: no rule excludes anything from this list

A condition decides alone where it was seen once true and once false and turning
it round would each time have changed the outcome; whatever else differs between
the two cases is masked (masking MC/DC).
`);
});

test('the outcomes of a check are named in the words of a check', () => {
  const outcomes = ['applies', 'does-not-apply', 'undetermined', 'not-in-scope'];
  const goals = outcomes.map((what) => ({ what, state: 'uncovered' as const }));
  const check = { rule: 'washed', check: true, place: at(1), goals };
  expect(coverageText({ sets: [{ ...set, rules: [check] }] }).replace(/\s+/g, ' ')).toContain(
    'rule washed – never not met, met, not recorded or undetermined or not applicable',
  );
});

test('a set that does not run says why and counts nothing', () => {
  const text = coverageText({
    sets: [{ ...set, totals, refused: ['there is no rule `overdue`'], rules: [], conditions: [] }],
  });
  expect(text).toContain('removal: covered by 12 vignettes\n  It does not run: there is no rule `overdue`\n');
  expect(text).not.toContain('%');
});
