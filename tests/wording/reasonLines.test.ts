import type { Reason } from '@dwellset/core';
import { reasonLines, wordsOf } from '@dwellset/wording';
import { expect, test } from 'vitest';
import { fact, release } from './fixtures.ts';

const said = (reason: Reason, mark = false): string =>
  reasonLines(reason, { words: wordsOf([release]), zone: 'Europe/London', width: 80, mark }).join('\n');

test('each condition says what was asked, its truth, what was found, when and from where', () => {
  const tree: Reason = {
    kind: 'all',
    truth: 'unknown',
    deciding: true,
    of: [
      fact(
        { fact: 'catheter.days-in', value: 9, unit: 'd', inputs: ['catheter.inserted-at'] },
        { operator: 'greaterThan', expected: 2, parameter: 'review.interval', deciding: false },
      ),
      {
        kind: 'not',
        truth: 'unknown',
        deciding: true,
        of: [
          fact(
            { fact: 'allergy.latex', possible: ['true', 'false'], cause: 'not-supplied' },
            { truth: 'unknown', expected: true },
          ),
        ],
      },
      fact(
        { fact: 'urine.scan', value: 480, unit: 'mL', at: '2026-06-01T07:15:00Z', from: 'the scanner' },
        { operator: 'greaterThanInclusive', expected: 400, deciding: false },
      ),
    ],
  };
  expect(`\n${said(tree, true)}\n`).toBe(`
not known  all of these: · decides
  true       calendar days in place are more than 2 days (local choice: longest
             time without a review) – found: 9 days (computed from insertion)
  not known  the opposite of this: · decides
    not known  there is a latex allergy – nobody supplied it · decides
  true       bladder scan is at least 400 mL – found: 480 mL (2026-06-01 08:15,
             from the scanner)
`);
});

test('what is known within limits is said as limits', () => {
  const scan = (read: object) =>
    said(fact({ fact: 'urine.scan', unit: 'mL', cause: 'within-bounds', ...read }, { operator: 'recorded' }));
  expect(scan({ low: 999, high: 5000, comparator: '>' })).toBe(
    'true       bladder scan is recorded – found: more than 999 mL',
  );
  expect(scan({ low: 100, high: 200 })).toContain('found: between 100 mL and 200 mL');
  expect(scan({ low: 0, high: 200 })).toContain('found: at most 200 mL');
  expect(
    said(fact({ fact: 'catheter.inserted-at', high: '2026-01-02T00:30:00Z', cause: 'stale' })),
  ).toContain('– recorded too long ago to rely on');
});

test('an unanswered sign is never printed as a no', () => {
  const words = said(
    fact(
      { fact: 'indication.reasons', yes: [], open: ['retention', 'clots', 'wound'], cause: 'not-supplied' },
      { truth: 'unknown', operator: 'contains', expected: 'clots' },
    ),
  );
  expect(words).toBe('not known  reasons for the catheter include "blood clots" – nobody supplied it');
  const partly = said(
    fact(
      { fact: 'indication.reasons', yes: ['wound'], open: ['clots'], cause: 'within-bounds' },
      { truth: 'unknown', operator: 'contains', expected: 'clots' },
    ),
  );
  expect(partly).toBe(
    'not known  reasons for the catheter include "blood clots" – found: an open\n           wound; not answered: blood clots',
  );
});

test('a leaf over a local choice shows what is in force', () => {
  expect(
    said({
      kind: 'parameter',
      truth: 'false',
      deciding: true,
      parameter: 'review.by-nurse',
      operator: 'equal',
      expected: true,
      value: false,
    }),
  ).toBe('false      by local choice, review by a nurse: yes – review by a nurse is set to\n           no');
});
