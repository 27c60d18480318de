import { type LocalVignetteResult, readLibrary, runForHospital } from '@dwellset/authoring';
import { describe, expect, it } from 'vitest';
import { amendedPolicy, filesOf, policy } from './fixture.ts';
import type { Json } from './invented/documents.ts';

const run = (changes: Record<string, readonly Json[]>, base = policy()): readonly LocalVignetteResult[] =>
  runForHospital(amendedPolicy(changes, {}, base), { hospital: 'hollow', set: 'removal' });

/** Vignette → what accounts for it, or that nothing does. */
const accounts = (results: readonly LocalVignetteResult[]) =>
  results.map(({ id, passed, changedBy }) => [
    id,
    passed ? 'as expected' : (changedBy?.map(({ item }) => item) ?? 'failed'),
  ]);

const failing = (): Record<string, Json> => {
  const documents = policy();
  const { vignettes } = documents['removal/overdue.vignettes.json'] as { vignettes: { expect: Json }[] };
  vignettes[2]!.expect = { speaks: ['bypassing'] };
  return documents;
};

describe('a published vignette on the rules of a hospital', () => {
  it('is changed by local policy where a switched-off rule no longer speaks, with the reason', () => {
    const results = run({ removal: [{ switchOff: 'review', reason: 'The round covers it.' }] });
    expect(accounts(results)).toEqual([
      ['day-20', ['review']],
      ['day-unknown', 'as expected'],
      ['day-10', ['review']],
    ]);
    expect(results[0]!.changedBy).toMatchObject([{ change: 'switched-off', reason: 'The round covers it.' }]);
    expect(results[0]!.mismatches).toMatchObject([{ what: 'speaks' }]);
  });

  it('is changed by the one change that its outcome reads, not by others beside it', () => {
    const results = run({
      removal: [{ switchOff: 'bypassing' }, { set: { 'dwell.longest': 7 } }],
    });
    // Seven days: day 10 is overdue now; the locked rule says more than before, never less.
    expect(accounts(results)).toEqual([
      ['day-20', ['dwell.longest']],
      ['day-unknown', 'as expected'],
      ['day-10', ['dwell.longest']],
    ]);
  });

  it('has failed where it fails as published too, whatever the hospital changes', () => {
    const results = run({ removal: [{ switchOff: 'review' }] }, failing());
    expect(accounts(results)).toEqual([
      ['day-20', ['review']],
      ['day-unknown', 'as expected'],
      ['day-10', 'failed'],
    ]);
  });

  it('has failed where a locked rule says less, though no change was refused for it', () => {
    const documents = policy();
    // The author states the wrong side: for this rule a longer stay means that it speaks later.
    (documents['choices/dwell.json'] as { parameters: Json[] }).parameters[0]!.cautious = 'higher';
    const [first] = run({ removal: [{ set: { 'dwell.longest': 28 } }] }, documents);
    expect(first).toMatchObject({ id: 'day-20', passed: false });
    expect(first!.changedBy).toBeUndefined();
    expect(first!.mismatches).toContainEqual({
      what: 'locked.overdue',
      expected: 'applies',
      received: 'does-not-apply',
    });
  });

  it('has failed where the amendment is refused, since no rules run then', () => {
    const results = run({ removal: [{ switchOff: 'overdue' }] });
    expect(new Set(accounts(results).map(([, what]) => what))).toEqual(new Set(['failed']));
  });

  it('comes out as expected at a hospital that amends nothing', () => {
    const results = runForHospital(readLibrary(filesOf(policy())), { hospital: 'hollow' });
    expect(results.length).toBeGreaterThan(0);
    expect(results.every(({ passed }) => passed)).toBe(true);
  });
});
