import { perDayWords, shareWords, wardChangedWords } from '@dwellset/wording';
import { expect, test } from 'vitest';

test('a share that is nearly all or nearly nothing is not rounded into certainty', () => {
  expect([shareWords(9999, 10_000), shareWords(1, 10_000), shareWords(0, 5), shareWords(5, 5)]).toEqual([
    'over 99 %',
    'under 1 %',
    '0 %',
    '100 %',
  ]);
  expect([shareWords(0, 0), perDayWords(3, 10_000), perDayWords(0, 10)]).toEqual(['–', 'under 0.01', '0.00']);
});

test('says how many patients of a ward change, of how many', () => {
  const ward = { patients: 1814, days: 10_000 };
  expect(wardChangedWords({ patients: 711, days: 1026 }, ward)).toBe(
    '711 of 1,814 patients change, on 1,026 of 10,000 patient-days',
  );
  expect(wardChangedWords({ patients: 0, days: 0 }, ward)).toBe(
    'No rule ends differently for any patient of the ward',
  );
});
