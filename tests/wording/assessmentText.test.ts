import { assessmentText } from '@dwellset/wording';
import { expect, test } from 'vitest';
import { advice, assessment, fact, release, rule, ruleSet } from './fixtures.ts';

const overdue = rule('overdue', {
  title: 'Review overdue',
  outcome: 'applies',
  reasons: {
    when: {
      kind: 'all',
      truth: 'true',
      deciding: true,
      of: [
        fact(
          { fact: 'catheter.days-in', value: 9, unit: 'd', inputs: ['catheter.inserted-at'] },
          { operator: 'greaterThan', expected: 2, parameter: 'review.interval' },
        ),
        fact({ fact: 'urine.scan', value: 480, unit: 'mL', at: '2026-06-01T07:15:00Z', from: 'the scanner' }),
      ],
    },
  },
});
const latex = rule('latex', { title: 'Latex in a patient with latex allergy', locked: true });

const full = assessment({
  adoption: {
    organisation: 'Harrowmere Hospital',
    id: 'harrowmere',
    approverRole: 'chief nurse',
    date: '2026-01-10',
    reviewDue: '2027-01-10',
    releases: [],
  },
  ruleSets: [
    ruleSet({
      status: 'active by adoption',
      amendment: {
        id: 'harrowmere',
        version: '1.0.0',
        organisation: 'Harrowmere Hospital',
        approverRole: 'chief nurse',
        date: '2026-01-10',
        base: { version: '0.1.0', digest: '99'.repeat(32) },
        changes: [
          { item: 'review.interval', change: 'set', from: '1', to: '2', reason: 'two rounds a week' },
        ],
      },
      conclusion: {
        id: 'review',
        title: 'Review the need',
        settled: false,
        possible: ['keep', 'remove', 'review'],
      },
      rules: [overdue, latex],
    }),
  ],
  advice: [
    advice('latex', {
      summary: 'Do not use a latex catheter; ask for an all-silicone one',
      indicator: 'critical',
      locked: true,
      because: 'Latex can set off a severe reaction.',
      detail: ['Set it aside.', 'Ask for another.'],
      chosen: 'the latex catheter, 14 Ch',
    }),
    advice('overdue', {
      folded: ['removal@0.1.0/latex'],
      local: { change: 'reworded', reason: 'the ward says it this way' },
      suggestions: [{ label: 'take it out' }, { label: 'record why it stays' }],
      answered: { reason: 'urology decides', until: '2026-06-02T08:00:00Z' },
    }),
  ],
  ask: [
    {
      fact: 'allergy.latex',
      question: 'Is there a latex allergy?',
      cause: 'asked-unknown',
      holdsUpStop: true,
      settlesAlone: 1,
      partOf: 1,
      rules: ['removal/latex', 'removal/overdue', 'removal/other'],
    },
  ],
  problems: [{ code: 'stale', fact: 'urine.scan', message: 'recorded 5 h ago, relied on for 2 h' }],
  counts: { applies: 2, undetermined: 1, notInScope: 4 },
});

test('a whole assessment reads from the top: do, why, what is open, what to ask, what was wrong', () => {
  expect(`\n${assessmentText(full, { releases: [release] })}`).toBe(`
Assessment as of 2026-06-01 09:30, Europe/London

Rules · active by adoption
  removal 0.1.0  base 999999999999 · local ab12cd34ef56, 1 change
Adopted by Harrowmere Hospital · chief nurse, 2026-01-10 · review due 2027-01-10

Do now

  Do not use a latex catheter; ask for an all-silicone one
     About    the item in the hand: the latex catheter, 14 Ch
     Why      Latex can set off a severe reaction.
     Steps    1. Set it aside.
              2. Ask for another.
     Source   Society of Invented Care, Catheters on the ward, 2024, section
              4.2 · grade B · read in the source
     Rule     removal@0.1.0/latex, locked: no hospital may switch it off

Do

  Consider taking the catheter out today
     Why      Every further day adds to the risk of infection.
     Found    calendar days in place: 9 days (computed from insertion)
              bladder scan: 480 mL (08:15, from the scanner)
     Options  take it out; record why it stays
     Source   Society of Invented Care, Catheters on the ward, 2024, section
              4.2 · grade B · read in the source
     Local    reworded here – the ward says it this way
              longest time without a review: 2 days here, 1 day as published –
                two rounds a week
     Folded   1 weaker rule, "Latex in a patient with latex allergy"
     Answer   answered with "urology decides" until 2026-06-02 09:00
     Rule     removal@0.1.0/overdue

Removal

  Review the need – not yet settled: could still be "Keep the catheter" or
  "Remove the catheter"

Not known: ask

  1  Is there a latex allergy?
     Asked, and the answer is not known. A stop waits for it: "Latex in a
     patient with latex allergy", "Review overdue" and 1 other rule.

Problems in the record

  Bladder scan: recorded 5 h ago, relied on for 2 h

Local choices

  Longest time without a review: 2 days here, 1 day as published
     Decides  "Review overdue"
     Changed  two rounds a week
     May be   No source gives a figure: any other value needs a source in the
              local policy.
     Cautious The lower value

2 rules apply, 1 could not be decided, 4 not in scope · @dwellset/core 0.1.0

Supports judgement, replaces none.
Not for emergencies.
`);
});

test('says so where no rule applied, and that drafts are for trying out', () => {
  const silent = assessment({ counts: { applies: 0, undetermined: 3, notInScope: 7 } });
  expect(`\n${assessmentText(silent)}`).toBe(`
Assessment as of 2026-06-01 09:30, Europe/London

Rules · draft, run on request
  removal 0.1.0  base ab12cd34ef56
Not adopted by any hospital: for trying out, not for use with patients.

No rule applied; 3 could not be decided, 7 not in scope.

Not known: ask

  3 rules could not be decided, and nothing is left that can be asked.

@dwellset/core 0.1.0

Supports judgement, replaces none.
Not for emergencies.
`);
});

test('rules that apply without a word of advice are not passed over', () => {
  const text = assessmentText(assessment({ counts: { applies: 2, undetermined: 0, notInScope: 1 } }));
  expect(text).toContain('\nNo rule that applied has advice; 0 could not be decided, 1 not in scope.\n');
});

test('asks five questions at most and counts the rest', () => {
  const question = full.ask[0];
  if (!question) throw new Error('the fixture has a question');
  const text = assessmentText(assessment({ ask: Array.from({ length: 8 }, () => question) }));
  expect(text.match(/Is there a latex allergy\?/g)).toHaveLength(5);
  expect(text).toContain('and 3 further questions');
});

test('names what makes an advice weaker than it looks', () => {
  const text = assessmentText(
    assessment({
      ruleSets: [ruleSet({ rules: [overdue, latex] })],
      advice: [
        advice('overdue', {
          memoryOnly: true,
          populationNotEstablished: true,
          strongerUndecided: ['latex'],
        }),
      ],
    }),
  );
  expect(text).toContain('Mind     this advice rests on memory alone, not checked\n');
  expect(text).toContain(`
              population not established: said because this stop is locked and
                nothing rules it out
              stronger rules, not yet decided: "Latex in a patient with latex
                allergy"
`);
});

test('without reasons an advice keeps its why and its source', () => {
  const bare = assessmentText(full, { releases: [release], reasons: 'none' });
  expect(bare).not.toContain('Found');
  expect(bare).toContain('Why      Every further day adds to the risk of infection.');
  expect(bare).toContain('grade B · read in the source');
});

test('with all reasons every rule is proved and every set says what it is for', () => {
  const text = assessmentText(full, { releases: [release], reasons: 'all' });
  expect(text).toContain(`
Proof, rule by rule

  Review overdue – applies
     removal/overdue
     When the rule applies
       true       all of these: · decides
`);
  expect(text).toContain('  Latex in a patient with latex allergy – does not apply\n     removal/latex\n');
  expect(text).toContain('Use      support the daily review of a urethral catheter');
  expect(text).toContain(`Base     ${'99'.repeat(32)}`);
  expect(text).toContain('review.interval: set from 1 to 2 – two rounds a week');
});

test('a rule out of scope is proved by what put it there, and by nothing else', () => {
  const gate = fact(
    { fact: 'catheter.material', value: 'pvc' },
    { truth: 'false', operator: 'equal', expected: 'latex' },
  );
  const scope = fact({ fact: 'allergy.latex', value: true }, { expected: true });
  const rules = [
    rule('x', { title: 'Latex', outcome: 'not-in-scope', reasons: { gate, scope, when: scope } }),
  ];
  const text = assessmentText(assessment({ ruleSets: [ruleSet({ rules })] }), {
    releases: [release],
    reasons: 'all',
  });
  expect(text).toContain(`
  Latex – not in scope
     removal/x
     When the set is asked
       false      material of the catheter is "latex" – found: PVC (plastic) ·
                  decides

About these rule sets
`);
});

test('never prints the id of the case', () => {
  for (const reasons of ['none', 'deciding', 'all'] as const) {
    expect(assessmentText(full, { releases: [release], reasons })).not.toContain('secret-case-id');
  }
});

test('carries the cautions of the assessment at every width and depth, and keeps to the width', () => {
  for (const width of [40, 60, 80, 120]) {
    for (const reasons of ['none', 'deciding', 'all'] as const) {
      const text = assessmentText(full, { releases: [release], width, reasons });
      expect(text.endsWith('Supports judgement, replaces none.\nNot for emergencies.\n')).toBe(true);
      const digest = /[0-9a-f]{64}/;
      const over = text.split('\n').filter((line) => line.length > width && !digest.test(line));
      expect(over).toEqual([]);
    }
  }
});

test('a problem is told in titles, words and units', () => {
  const problems = [
    { code: 'stale', fact: 'urine.scan', message: 'it is older than PT2H' },
    { code: 'conflicting', fact: 'allergy.latex', message: 'it lies before catheter.inserted-at' },
    { code: 'wrong-unit', fact: 'urine.scan', message: 'its unit is mm[Hg]', hint: 'that is 900 mL' },
    { code: 'not-read', message: 'other.fact' },
  ];
  expect(assessmentText(assessment({ problems }), { releases: [release] })).toContain(`
Problems in the record

  Bladder scan: it is older than 2 hours
  Latex allergy: it lies before insertion
  Bladder scan: its unit is mmHg; that is 900 mL

Supplied, but read by no rule here

  other.fact
`);
});

test('a text from the record cannot fake a line or steer a terminal', () => {
  const text = assessmentText(
    assessment({ problems: [{ code: 'x', message: 'odd\n\nDo now\n\u001b[2Jgone\u202e' }] }),
  );
  expect(text).toContain('  Odd Do now [2Jgone\n');
});
