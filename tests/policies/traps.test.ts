/// <reference types="node" />
import { readFileSync } from 'node:fs';
import { type CaseScore, runVignettes, scoreboard } from '@dwellset/authoring';
import { describe, expect, it } from 'vitest';
import { examples } from '../authoring/diagnostics/examples.ts';
import { provoke } from '../authoring/diagnostics/provoke.ts';
import { library } from './shipped.ts';

/** What holds a trap: a vignette with what it must expect of a rule, a code of the check, a case of an answer key, or a sentence. */
type Holder =
  | { readonly vignette: string; readonly rule: string; readonly outcome: string }
  | { readonly code: string }
  | { readonly key: string }
  | { readonly sentence: string };

const vignette = (name: string, rule: string, outcome: string): Holder => ({ vignette: name, rule, outcome });
const code = (name: string): Holder => ({ code: name });
const key = (name: string): Holder => ({ key: name });
const sentence = (words: string): Holder => ({ sentence: words });

const TRAPS: readonly (readonly [trap: string, ...holders: Holder[]])[] = [
  [
    'a list of allergies does not say that the one that matters was asked',
    vignette('catheter-choice/latex-allergy-not-asked', 'latex-allergy', 'undetermined'),
    sentence('An allergy list that names penicillin does not prove that latex was asked about'),
  ],
  [
    'what never happened has no date, and a date nobody sent is not "never"',
    vignette('removal/never-reviewed', 'review-due', 'applies'),
    sentence('An absent date is unknown, not "never"'),
  ],
  [
    'a record that the ward system never sends would prompt for every patient for ever',
    vignette('removal/review-not-supplied', 'review-due', 'undetermined'),
    sentence('`notRecorded` on a fact that the ward system never sends'),
  ],
  [
    'of an empty pack every item is in date',
    code('empty-list-vacuous'),
    sentence('"every item is in date" holds of an empty list'),
  ],
  [
    'a reason to hold back asks everybody, unless only those it concerns are asked',
    vignette('removal/surgery-not-asked-about-pressure', 'unfit-for-trial', 'does-not-apply'),
    vignette('removal/pressure-not-recorded', 'unfit-for-trial', 'undetermined'),
    sentence('Gate it by the reason for the catheter'),
  ],
  [
    'washout for clot, change for all else: before the cause is known neither speaks, so a third rule does',
    vignette('removal/no-urine-since-morning', 'blocked', 'applies'),
    sentence('a third rule says what both have in common'),
  ],
  ['"not equal" to something unknown is unknown', sentence('and so is `notEqual`')],
  [
    'a rare reason that nobody asked about does not make every catheter a size larger',
    vignette('catheter-choice/debris-too-small-control', 'debris-too-small', 'undetermined'),
    sentence('keeps its rank'),
  ],
  [
    'an operation that the table does not name is not an unknown one',
    vignette('indication/operation-not-listed', 'operation-avoid', 'does-not-apply'),
    sentence('A code that a table does not name is not unknown'),
  ],
  [
    'who the rule is about is not yet known: it does not ask where no answer could make it speak',
    vignette('removal/no-reason-stage-unknown', 'no-reason-left', 'undetermined'),
    sentence('stays silent where no answer could make it speak'),
  ],
  [
    'what is certain whatever the missing answer is settled, but not every certainty is seen',
    vignette('removal/no-label-material-unknown-day-90', 'change-overdue', 'applies'),
    sentence('"this or not this"'),
  ],
  [
    'a hard stop holds for a boy too, although the set is for adults',
    vignette('catheter-choice/female-length-in-male-teenager', 'female-length-in-male', 'applies'),
  ],
  [
    'sources differ in "more than" and "from": the number is chosen, the comparison is fixed',
    vignette('removal/rise-of-exactly-the-limit', 'dysreflexia-pressure', 'does-not-apply'),
    sentence('A local choice moves the number, not the comparison'),
  ],
  [
    'a source passes below and fails above and leaves the figure itself out',
    vignette('removal/residual-150', 'residual-high', 'applies'),
    vignette('indication/cholecystectomy-two-hours', 'operation-gap', 'applies'),
  ],
  [
    'one row says up to 2 h, its own note less than 2 h',
    key('map-operations/revision-knee-exactly-two-hours'),
  ],
  [
    'the volume that a balloon takes is the one in the instructions, and may be a range',
    vignette('insertion-bundle/balloon-as-labelled-instructions', 'balloon-as-labelled', 'met'),
    sentence('a range of filling volumes'),
  ],
  [
    'a label that nobody looked at is not a label without a figure',
    vignette('removal/label-not-seen', 'change-overdue', 'undetermined'),
  ],
  [
    'charting always ends before the moment of the case',
    code('window-not-fit'),
    sentence('Charted series end at their newest entry'),
  ],
  [
    'a value without a time cannot go out of date, so it does not count',
    sentence('with neither it does not count'),
  ],
  ['where no source gives a figure, the choice says that it is local', code('parameter-without-position')],
  [
    'two limits on one label that differ: the dose in a child',
    key('gel-labels/child-per-kilogram'),
    sentence('the lower of the two'),
  ],
  [
    'days of the calendar, days of the clock: a date without a time is open for one day',
    vignette('removal/cauti-date-only-seven-days', 'infection', 'undetermined'),
    sentence('Days count from midnight to midnight'),
  ],
  [
    'what a form says and what the chart says may differ',
    sentence('Where a form and the chart can contradict each other'),
  ],
  [
    'a reason that stands hides the warning about one that does not',
    vignette('indication/incontinence-with-retention', 'incontinence-alone', 'speaks'),
  ],
  [
    'a value that cannot be is refused, and is not the same as nothing recorded',
    code('impossible-value'),
    sentence('is refused and shown, and the rule stays open'),
  ],
  [
    'the limits of a fact are all that it can be: too narrow, and they settle what is open',
    code('constant-outside-limits'),
    sentence('Limits of a fact are its domain'),
  ],
];

const readme = readFileSync(new URL('../../policies/README.md', import.meta.url), 'utf8').replace(
  /\s+/g,
  ' ',
);
const minded = readme.slice(readme.indexOf('## What to mind'), readme.indexOf("## A hospital's own choices"));
const results = new Map(runVignettes(library).map((result) => [`${result.set}/${result.id}`, result]));
const answers = new Map<string, CaseScore>(
  scoreboard(library).flatMap(({ id, cases }) => cases.map((one) => [`${id}/${one.id}`, one] as const)),
);

function expectedOf(name: string, rule: string): string | undefined {
  const [set = '', id] = name.split('/');
  const files = [...(library.sets.get(set)?.vignettes.values() ?? [])];
  const found = files.flatMap(({ value }) => value.vignettes).find((one) => one.id === id);
  return found?.expect.rules?.[rule] ?? (found?.expect.speaks?.includes(rule) ? 'speaks' : undefined);
}

function holds(holder: Holder): void {
  if ('vignette' in holder) {
    expect(results.get(holder.vignette)?.mismatches, holder.vignette).toEqual([]);
    expect(expectedOf(holder.vignette, holder.rule), holder.vignette).toBe(holder.outcome);
  } else if ('code' in holder) {
    const own = examples.filter((example) => example.code === holder.code);
    expect(own.length, holder.code).toBeGreaterThan(0);
    for (const example of own) expect(provoke(example).found.map((one) => one.code)).toEqual([holder.code]);
  } else if ('key' in holder) {
    const answer = answers.get(holder.key);
    expect(answer, holder.key).toBeDefined();
    if (answer?.verdict === 'disagreed') expect(answer.differs, holder.key).toBeTypeOf('string');
  } else expect(minded).toContain(holder.sentence);
}

describe('traps of the trade that rules fall into', () => {
  it('are all in the table, each held by something', () => {
    expect(TRAPS).toHaveLength(26);
    expect(TRAPS.filter(([, ...holders]) => holders.length === 0)).toEqual([]);
  });

  it.each(TRAPS.map(([trap, ...holders]) => [trap, holders] as const))('%s', (_, holders) => {
    for (const holder of holders) holds(holder);
  });

  it('a holder that is gone, or expects something else, is noticed', () => {
    expect(() => holds(vignette('removal/residual-150', 'residual-high', 'does-not-apply'))).toThrow();
    expect(() => holds(vignette('removal/no-such-patient', 'residual-high', 'applies'))).toThrow();
    expect(() => holds(code('no-such-code'))).toThrow();
    expect(() => holds(key('map-operations/no-such-row'))).toThrow();
    expect(() => holds(sentence('No such sentence'))).toThrow();
  });
});
