import { CAUTIONS, type Forecast } from '@dwellset/core';
import {
  cautions,
  checkText,
  crossCheckText,
  diagnosticText,
  factsText,
  forecastText,
  vignettesText,
} from '@dwellset/wording';
import { expect, test } from 'vitest';
import { release } from './fixtures.ts';

/** Cautions are wrapped: they are looked for word by word. */
const carriesCautions = (text: string): boolean => {
  const flat = text.replace(/\s+/g, ' ');
  return CAUTIONS.length > 0 && CAUTIONS.every((caution) => flat.includes(caution));
};

test('the cautions are those of the core', () => {
  expect(cautions).toBe(CAUTIONS);
});

test('a diagnostic stands under its place, which stays in one piece', () => {
  const diagnostic = {
    code: 'unknown-fact',
    severity: 'error',
    path: 'removal/overdue.rule.json',
    range: { line: 12, column: 7 },
    message: 'rule `overdue` reads `catheter.day-in`, which no group of the dictionary holds',
    hint: 'did you mean `catheter.days-in`?',
  } as const;
  expect(`\n${diagnosticText(diagnostic)}\n`).toBe(`
removal/overdue.rule.json:12:7 · error · unknown-fact
  rule \`overdue\` reads \`catheter.day-in\`, which no group of the dictionary
  holds; did you mean \`catheter.days-in\`?
`);
  expect(checkText([diagnostic, { ...diagnostic, severity: 'warning' }], 40)).toMatch(
    /\n\n40 documents checked: 1 error, 1 warning\n$/,
  );
  expect(checkText([], 1)).toBe('1 document checked: nothing to correct\n');
});

test('a forecast says what will be, what was before, and that only time moves', () => {
  const forecast: Forecast = {
    from: '2026-06-01T08:30:00Z',
    to: '2026-06-02T08:30:00Z',
    caution: CAUTIONS,
    upcoming: {
      'removal@0.1.0/overdue': 'Consider taking the catheter out',
      'removal@0.1.0/latex': 'Do not use a latex catheter',
    },
    changes: [
      {
        at: '2026-06-01T23:00:00Z',
        rules: [
          { set: 'removal', rule: 'overdue', from: 'does-not-apply', to: 'applies' },
          { set: 'removal', rule: 'far', from: 'not-in-scope', to: 'undetermined' },
          ...['one', 'two'].map((rule) => ({
            set: 'removal',
            rule,
            from: 'does-not-apply' as const,
            to: 'undetermined' as const,
            check: { from: 'met', to: 'undetermined' } as const,
          })),
        ],
        conclusions: [{ set: 'removal', from: 'review', to: 'remove' }],
        advice: { new: ['removal@0.1.0/overdue', 'removal@0.1.0/latex'], gone: ['removal@0.1.0/other'] },
      },
    ],
  };
  const text = forecastText(forecast, { timeZone: 'Europe/London', releases: [release] });
  expect(`\n${text.slice(0, text.indexOf('\n\n', text.indexOf('Removal –')))}\n`).toBe(`
Forecast from 2026-06-01 09:30 to 2026-06-02 09:30, Europe/London

Only time moves here: every entry is taken to stay as it is.

2026-06-02 00:00
  Review overdue – applies; before that: does not apply
     says then: Consider taking the catheter out
  Latex in a patient with latex allergy – speaks again
     says then: Do not use a latex catheter
  Not yet decided; before that: met – removal/one; removal/two
  1 rule without a word to say comes into scope or out of it
  removal/other – no longer speaks
  Removal – "Remove the catheter"; before that: "Review the need"
`);
  expect(carriesCautions(text)).toBe(true);
  const quiet = forecastText({ ...forecast, changes: [] }, { timeZone: 'UTC' });
  expect(quiet).toContain('\nNothing changes in this time.\n');
  expect(carriesCautions(quiet)).toBe(true);
});

test('the dictionary says what may be supplied, in which unit and how long it is relied on', () => {
  const scan = release.facts.filter(({ id }) => id === 'urine.scan' || id === 'catheter.material');
  expect(
    `\n${factsText({ facts: scan, codes: release.codes, groups: new Map([['urine', 'Urine']]) })}`,
  ).toBe(`
catheter

  catheter.material – material of the catheter
     Which material is it?
     one code
       pvc: PVC (plastic)
       latex: latex
       silicone: all-silicone

Urine

  urine.scan – bladder scan
     What does the bladder scan show?
     number in mL (unit mL) · possible 0 to 5000 · usual 0 to 1500, outside it
     to be confirmed · relied on for 2 hours
`);
});

test('a vignette that fails is shown in full, the others are counted', () => {
  const range = { line: 4, column: 5 };
  const path = 'removal/overdue.vignettes.json';
  const good = {
    set: 'removal',
    id: 'day-1',
    title: 'first day',
    path,
    range,
    mismatches: [],
  };
  const bad = {
    ...good,
    id: 'day-9',
    title: 'ninth day',
    mismatches: [{ what: 'rules.overdue', expected: 'applies', received: 'undetermined' }],
  };
  const text = vignettesText([good, bad]);
  expect(text.slice(0, text.indexOf('\n\n', text.indexOf('2 vignettes')))).toBe(
    [
      'removal/overdue.vignettes.json:4:5',
      '  ninth day (day-9)',
      '     rules.overdue: expected applies, came out as undetermined',
      '',
      'removal: 2 vignettes, 1 not as expected',
    ].join('\n'),
  );
  expect(carriesCautions(text)).toBe(true);
  expect(vignettesText([good])).toContain('removal: 1 vignette, all as expected');
  expect(vignettesText([])).toContain('No vignette was found.');
});

test('two engines that disagree are both quoted, and neither is believed', () => {
  expect(crossCheckText({ agrees: true, compared: 40, disagreements: [] })).toBe(
    'cross-check: 40 results compared, the two engines agree\n',
  );
  const disagreement = {
    set: 'removal',
    rule: 'overdue',
    what: 'outcome',
    core: 'applies',
    second: 'undetermined',
  };
  expect(
    crossCheckText({ name: 'a.case.json', agrees: false, compared: 40, disagreements: [disagreement] }),
  ).toBe(
    `a.case.json: cross-check: THE TWO ENGINES DISAGREE; do not rely on this assessment
  removal/overdue, outcome: applies on the one engine, undetermined on the other
`,
  );
});
