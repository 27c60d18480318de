import { buildRelease, readLibrary, runVignettes } from '@dwellset/authoring';
import { type CaseValue, compile, evaluate, explain } from '@dwellset/core';
import { foundWords, wordsOf } from '@dwellset/wording';
import { describe, expect, it } from 'vitest';
import { base } from './diagnostics/base.ts';

const library = readLibrary(base);
const { release } = buildRelease(library, 'output');
const plan = compile([release!], { allow: ['draft'] });
const words = wordsOf([release!]);

/** What is said of a fact after the volumes of some hours, with the time each was charted up to. */
function said(fact: string, volumes: CaseValue): string {
  const evaluation = evaluate(plan, {
    asOf: '2026-11-02T09:00:00Z',
    timeZone: 'UTC',
    facts: { 'urine.volumes': volumes },
  });
  const { reasons } = explain(evaluation, { reasons: 'all' }).ruleSets[0]!.rules[0]!;
  const leaf = (reasons!.when as { of: readonly { read: { fact: string } }[] }).of.find(
    ({ read }) => read.fact === fact,
  );
  return foundWords(leaf!.read, words, 'UTC');
}

const hour = (end: number, volume: number): Readonly<Record<string, CaseValue>> => ({
  from: `2026-11-02T0${end - 1}:00:00Z`,
  to: `2026-11-02T0${end}:00:00Z`,
  volume: { value: volume, unit: 'mL' },
  source: 'latex',
});

describe('a set that reads a list', () => {
  it('takes along the code lists of the fields, so that their codes can be read', () => {
    expect(release!.codes).toEqual({ materials: { latex: 'latex', silicone: 'all-silicone' } });
    const { problems } = evaluate(plan, {
      asOf: '2026-11-02T09:00:00Z',
      timeZone: 'UTC',
      facts: { 'urine.volumes': [hour(9, 60)] },
    });
    expect(problems).toEqual([]);
  });

  it('is tried out by vignettes with entries', () => {
    const [result] = runVignettes(library, { set: 'output' });
    expect(result!.mismatches).toEqual([]);
  });

  it('says how many entries there are, and of none that none is charted', () => {
    expect(said('urine.entries', [hour(8, 50), hour(9, 60)])).toBe('2 (computed from urine volumes)');
    expect(said('urine.entries', [])).toBe('0 (computed from urine volumes)');
    expect(said('urine.least-rate', [])).toMatch(/^none charted/);
  });

  it('never says of a list that nobody supplied that it holds none', () => {
    expect(said('urine.least-rate', null)).not.toMatch(/none charted/);
    expect(said('urine.entries', null)).not.toMatch(/^0/);
  });
});
