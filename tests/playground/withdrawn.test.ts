import { releasesFor } from '@dwellset/authoring';
import { expect, test } from 'vitest';
import { ANSWERS } from '../../playground/src/bench/answers.ts';
import { Bench } from '../../playground/src/bench/bench.ts';
import { caseAt, library } from '../policies/shipped.ts';

const [removal] = releasesFor(library, 'removal');
const record = {
  $schema: 'urn:dwellset:withdrawal:1',
  id: 'removal',
  version: removal!.version,
  digest: '0'.repeat(64),
  date: '2026-11-01',
  approverRole: 'Lead nurse',
  reason: 'It counted the wrong days.',
};

/** What the bench says of how the rules stand on the page of a patient. */
function standing(more: Readonly<Record<string, object>>): string {
  const files = new Map(library.documents.map(({ path, source }) => [path, source.text]));
  for (const [path, document] of Object.entries(more)) files.set(path, JSON.stringify(document));
  const { assessment } = ANSWERS.assess(new Bench(files, () => {}), {
    side: 'base',
    sets: ['removal'],
    patient: caseAt('harrowmere', 'after-removal'),
  });
  return assessment.ruleSets.find(({ id }) => id === 'removal')!.status;
}

test('rules that were withdrawn can be tried, and the patient page says that they were', () => {
  expect(standing({})).toBe('draft, run on request');
  expect(standing({ [`withdrawals/removal-${record.version}.json`]: record })).toBe(
    'withdrawn on 2026-11-01: It counted the wrong days.',
  );
});
