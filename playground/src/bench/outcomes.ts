import type { Outcome } from '@dwellset/core';

/** Outcomes in the order in which a ledger's cells count them. */
export const OUTCOMES: readonly Outcome[] = [
  'applies',
  'does-not-apply',
  'undetermined',
  'not-in-scope',
  'switched-off',
];
