import type { Condition } from '@dwellset/core';
import { conditionSentence } from '@dwellset/wording';
import { expect, test } from 'vitest';
import { release } from './fixtures.ts';

const said = (condition: Condition): string => conditionSentence(condition, release);

test('a yes-or-no fact speaks with its own phrases', () => {
  const leaf = { fact: 'allergy.latex', operator: 'equal', value: true } as const;
  expect(said(leaf)).toBe('There is a latex allergy.');
  expect(said({ not: leaf })).toBe('There is no latex allergy.');
  expect(said({ ...leaf, operator: 'notEqual' })).toBe('There is no latex allergy.');
});

test('a threshold is said with its unit, and as a local choice where a hospital may move it', () => {
  expect(said({ fact: 'urine.scan', operator: 'greaterThanInclusive', value: 400 })).toBe(
    'Bladder scan is at least 400 mL.',
  );
  expect(
    said({ fact: 'catheter.days-in', operator: 'greaterThan', value: { parameter: 'review.interval' } }),
  ).toBe('Calendar days in place are more than 2 days (local choice: longest time without a review).');
});

test('a negated comparison is turned round', () => {
  const leaf = { fact: 'urine.scan', operator: 'lessThan', value: 100 } as const;
  expect(said({ not: leaf })).toBe('Bladder scan is at least 100 mL.');
  expect(
    said({ not: { fact: 'catheter.inserted-at', operator: 'before', value: '2026-05-01T10:00:00Z' } }),
  ).toBe('Insertion is on or after 2026-05-01 10:00.');
});

test('codes are said in words and in quotation marks', () => {
  expect(said({ fact: 'catheter.material', operator: 'in', value: ['pvc', 'latex'] })).toBe(
    'Material of the catheter is "PVC (plastic)" or "latex".',
  );
  expect(said({ fact: 'indication.reasons', operator: 'contains', value: 'clots' })).toBe(
    'Reasons for the catheter include "blood clots".',
  );
  expect(said({ fact: 'patient.urology-history', operator: 'doesNotContain', value: 'clots' })).toBe(
    'Urological history does not include "blood clots".',
  );
  expect(
    said({ not: { fact: 'indication.reasons', operator: 'containsAny', value: ['clots', 'wound'] } }),
  ).toBe('Not (reasons for the catheter include "blood clots" or "an open wound").');
});

test('groups are joined with and, or, and brackets where both meet', () => {
  const latex = { fact: 'allergy.latex', operator: 'equal', value: true } as const;
  const scan = { fact: 'urine.scan', operator: 'recorded' } as const;
  const date = { fact: 'pack.use-by', operator: 'lessThanInclusive', value: '2026-05-01' } as const;
  expect(said({ all: [latex, { any: [scan, date] }] })).toBe(
    'There is a latex allergy and (bladder scan is recorded or use-by date is on or before 2026-05-01).',
  );
  expect(said({ not: { any: [latex, scan] } })).toBe(
    'There is no latex allergy and nothing is recorded for bladder scan.',
  );
});

test('named conditions keep their name, and leaves over a local choice say so', () => {
  expect(said({ all: [{ condition: 'long-in-place' }] })).toBe('"long in place" holds.');
  expect(said({ not: { condition: 'long-in-place' } })).toBe('"long in place" does not hold.');
  expect(said({ parameter: 'review.by-nurse', operator: 'equal', value: true })).toBe(
    'By local choice, review by a nurse: yes.',
  );
});
