import { buildRelease, compareReleases, readLibrary, type Side } from '@dwellset/authoring';
import type { Release } from '@dwellset/core';
import { comparisonText } from '@dwellset/wording';
import { describe, expect, it } from 'vitest';
import { filesOf, policy } from '../authoring/fixture.ts';

const published = buildRelease(readLibrary(filesOf(policy())), 'removal').release!;
const flat = (text: string): string => text.replace(/\s+/g, ' ');

/** The published set as a hospital has it: another limit, and its reason. */
function at(organisation: string, days: number, reason: string): Release {
  const parameters = published.parameters.map((one) =>
    one.id === 'dwell.longest' ? { ...one, value: days } : one,
  );
  const base = { version: published.version, digest: '0'.repeat(64) };
  const who = { id: 'x', version: '1.0.0', organisation, approverRole: 'nurse', date: '2030-01-01', base };
  return {
    ...published,
    parameters,
    amendment: { ...who, changes: [{ item: 'dwell.longest', change: 'set', reason }] },
  };
}

const text = (a: Release, b: Release, facts: Record<string, string> = {}): string => {
  const patient = {
    $schema: 'urn:dwellset:case:1',
    asOf: '2030-03-01T12:00:00Z',
    timeZone: 'Europe/London',
    recordedAt: '2030-03-01T11:00:00Z',
    facts: { 'catheter.stage': 'in-place', 'catheter.inserted-at': '2030-02-19T12:00:00Z', ...facts },
  } as const;
  const comparison = compareReleases([a] as Side, [b] as Side, [
    { from: 'vignette', name: 'removal/x/y', case: patient },
  ]);
  return flat(comparisonText([comparison], { releases: [b, a] }));
};

describe('a comparison of two hospitals', () => {
  const said = text(
    at('Ashby (invented)', 14, 'Two rounds a month.'),
    at('Elm (invented)', 7, 'Weekly round.'),
  );

  it('calls them by their names, since neither came before the other', () => {
    expect(said).toContain('Comparison of Ashby and Elm');
    expect(said).toContain('as amended by Ashby (invented)');
    expect(said).toContain('speaks at Elm where it is silent or undecided at Ashby.');
    expect(said).toMatch(
      /At Ashby, it is silent; at Elm, it speaks \(critical\)\. From the vignette removal\/x\/y\./,
    );
    expect(said).not.toMatch(/before|after:|demands/);
  });

  it('gives the value and the reason of either, the choice by its title', () => {
    expect(said).toContain('(dwell.longest) in force: at Ashby 14 days; at Elm 7 days');
    expect(said).toContain('reason at Ashby: Two rounds a month.');
    expect(said).toContain('reason at Elm: Weekly round.');
  });
});

describe('a comparison of two versions', () => {
  it('keeps before and after, and says what version follows', () => {
    const said = text(published, { ...at('x', 7, 'y'), amendment: undefined } as unknown as Release);
    expect(said).toContain('in force: was 14 days; is 7 days');
    expect(said).toContain('speaks where it was silent or undecided.');
    expect(said).toContain('This demands a major version.');
  });

  it('says of a list what was left out and what was added', () => {
    const [first, ...others] = published.rules;
    const advice = { ...first!.advice!, detail: ['Another step.'] };
    const said = text(published, {
      ...published,
      rules: [{ ...first!, advice, evidence: ['ev-dwell'] }, ...others],
    });
    expect(said).toContain('detail: left out: "Step one."; added: "Another step."');
  });

  it('tells a question that comes or goes from something that is said', () => {
    const scope = { fact: 'catheter.bypassing', operator: 'recorded' } as const;
    const rules = published.rules.map((rule) => (rule.id === 'review' ? { ...rule, scope } : rule));
    const said = text(published, { ...published, rules });
    const at = said.indexOf('Outcomes that changed');
    expect(at).toBeGreaterThan(-1);
    expect(said.slice(at)).toContain('can no longer be decided, and asks.');
  });
});
