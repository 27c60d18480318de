import {
  buildRelease,
  compareReleases,
  GATES,
  type Gate,
  type Library,
  readLibrary,
  runGates,
  type Side,
  withDocument,
} from '@dwellset/authoring';
import { analyseSet } from '@dwellset/authoring/analysis';
import { describe, expect, test } from 'vitest';
import { base } from './diagnostics/base.ts';
import { filesOf, policy } from './fixture.ts';
import type { Json } from './invented/documents.ts';

/** The invented policy with changes to its documents. */
function changed(change: (documents: Record<string, Json>) => void = () => {}): Library {
  const documents = policy();
  change(documents);
  return readLibrary(filesOf(documents));
}

const library = changed();
const release = buildRelease(library, 'removal').release!;
const context = { library, release };
const invented: Gate = { id: 'invented', run: () => ['found'] };

/** What one of the gates says of a library. */
async function findings(id: string, of: Library, more: object = {}): Promise<readonly string[]> {
  const gate = GATES.filter((one) => one.id === id);
  const [result] = await runGates(gate, { library: of, release, ...more }, new Map());
  expect(result?.outcome).toBe(result!.findings.length > 0 ? 'refused' : 'passed');
  return result!.findings;
}

describe('the gates of a release', () => {
  test('the check refuses a document with a mistake in it', async () => {
    const broken = changed((documents) => {
      documents['hazards.json'] = { $schema: 'urn:dwellset:hazards:1', hazard: [] };
    });
    expect((await findings('check', broken)).join()).toContain('hazards.json:');
    expect(await findings('check', readLibrary(base))).toEqual([]);
  });

  test('a set without vignettes is refused', async () => {
    const without = changed((documents) => {
      delete documents['removal/overdue.vignettes.json'];
    });
    expect(await findings('vignettes', without)).toEqual(['removal: 0']);
    expect(await findings('vignettes', library)).toEqual([]);
  });

  test('a vignette that comes out otherwise is refused, and no mistake is planted then', async () => {
    const failing = changed((documents) => {
      const { vignettes } = documents['removal/overdue.vignettes.json'] as { vignettes: Json[] };
      vignettes[0]!.expect = { rules: { overdue: 'not-in-scope' } };
    });
    const [first] = await findings('vignettes', failing);
    expect(first).toMatch(/^removal\/overdue\//);
    expect((await findings('mutation', failing)).join()).toContain('does not come out as it must');
  });

  test('a finding of the analysis is refused until it is accepted with a reason, and an idle acceptance too', async () => {
    expect(await findings('analysis', library)).toEqual([]);
    const idle = changed((documents) => {
      const rule = documents['removal/overdue.rule.json']!;
      rule.scope = { not: rule.when };
    });
    const [found] = await findings('analysis', idle);
    expect(found).toMatch(/^removal\/overdue\.rule\.json:\d+:\d+ never-applies: overdue$/);
    const [finding] = analyseSet(idle, 'removal').findings;
    const acceptance = {
      finding: 'never-applies',
      of: ['overdue'],
      digest: finding!.digest,
      reason: 'A draft.',
    };
    const accepting = (library: Library) =>
      withDocument(
        library,
        'accepted/removal.json',
        JSON.stringify({ $schema: 'urn:dwellset:accepted:1', set: 'removal', accepted: [acceptance] }),
      );
    expect(await findings('analysis', accepting(idle))).toEqual([]);
    expect((await findings('analysis', accepting(library))).join()).toMatch(
      /^accepted\/removal\.json:\d+:\d+ not-found: never-applies: overdue$/,
    );
  });

  test('what the vignettes do not show is refused, total by total', async () => {
    expect((await findings('coverage', library)).join()).toMatch(/outcomes: \d+(\.\d)? %/);
  });

  test('planted mistakes that nobody notices are refused, those in a locked rule by name', async () => {
    const found = await findings('mutation', library);
    expect(found[0]).toMatch(/^all: \d+ \/ \d+ = [\d.]+ % < 95 %$/);
    expect(found[1]).toMatch(/^locked: \d+ \/ \d+ = [\d.]+ % < 100 %$/);
    expect(found.slice(2).join()).toMatch(/removal\/\w+\.rule\.json:\d+:\d+ \S+ \(locked\)/);
  });

  test('a control that proves nothing is refused in its own set only', async () => {
    const idle = changed((documents) => {
      const { hazards } = documents['hazards.json'] as { hazards: [{ controls: string[] }] };
      hazards[0].controls.push('removal/day-10');
    });
    expect((await findings('hazards', idle)).join()).toMatch(
      /^hazards\.json:\d+:\d+ control-proves-nothing$/,
    );
    const other = buildRelease(idle, 'reason').release!;
    expect(await findings('hazards', idle, { release: other })).toEqual([]);
  });

  test('a version too low for what changed is refused, and one that was withdrawn', async () => {
    const later = { ...release, rules: release.rules.slice(1), version: '0.1.1' };
    const comparison = compareReleases([release] as Side, [later] as Side, []);
    expect(await findings('version', library, { release: later, comparison })).toEqual(['0.1.1 < 0.2.0']);
    const withdrawn = changed((documents) => {
      documents['withdrawals/removal-0.1.0.json'] = {
        $schema: 'urn:dwellset:withdrawal:1',
        id: 'removal',
        version: '0.1.0',
        digest: '0'.repeat(64),
        date: '2030-02-01',
        approverRole: 'Lead nurse',
        reason: 'It counted the wrong days.',
      };
    });
    expect(await findings('version', withdrawn)).toEqual(['0.1.0 withdrawn']);
    // A hospital that still names it is its own mistake, and holds up no replacement.
    expect(await findings('check', withdrawn)).toEqual(await findings('check', library));
  });

  test('an added gate counts like the others; a reason is kept, and taken only for what refuses', async () => {
    const reasons = new Map([['invented', 'agreed']]);
    expect(await runGates([invented], context, new Map())).toMatchObject([{ outcome: 'refused' }]);
    expect(await runGates([invented], context, reasons)).toMatchObject([
      { outcome: 'accepted', findings: ['found'], reason: 'agreed' },
    ]);
    const quiet: Gate = { id: 'invented', run: () => [] };
    expect(await runGates([quiet], context, reasons)).toEqual([
      { gate: 'invented', outcome: 'passed', findings: [] },
    ]);
  });

  test('a gate that breaks off has not passed', async () => {
    const broken: Gate = { id: 'invented', run: () => Promise.reject(new TypeError('no answer')) };
    expect(await runGates([broken], context, new Map())).toEqual([
      { gate: 'invented', outcome: 'refused', findings: ['TypeError: no answer'] },
    ]);
  });
});
