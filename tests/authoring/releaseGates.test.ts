import {
  buildRelease,
  GATES,
  type Gate,
  readLibrary,
  readReleaseFile,
  releaseText,
  runGates,
} from '@dwellset/authoring';
import { describe, expect, test } from 'vitest';
import { filesOf, policy } from './fixture.ts';

const library = readLibrary(filesOf(policy()));
const release = buildRelease(library, 'removal').release!;
const context = { library, release };
const gate: Gate = { name: 'invented', run: () => ['found'] };

describe('the gates of a release', () => {
  test('the check refuses a document with a mistake in it', async () => {
    const documents = { ...policy(), 'hazards.json': { $schema: 'urn:dwellset:hazards:1', hazard: [] } };
    const broken = readLibrary(filesOf(documents));
    const [result] = await runGates(GATES, { library: broken, release }, new Map());
    expect(result).toMatchObject({ gate: 'check', outcome: 'refused' });
    expect(result!.findings.join()).toContain('hazards.json:');
  });

  test('a set without vignettes is refused', async () => {
    const documents = policy();
    delete documents['removal/overdue.vignettes.json'];
    const results = await runGates(GATES, { library: readLibrary(filesOf(documents)), release }, new Map());
    expect(results.find((one) => one.gate === 'vignettes')?.outcome).toBe('refused');
  });

  test('an added gate counts like the others; a reason is kept, and taken only for what refuses', async () => {
    const reasons = new Map([['invented', 'agreed']]);
    expect(await runGates([gate], context, new Map())).toMatchObject([{ outcome: 'refused' }]);
    expect(await runGates([gate], context, reasons)).toMatchObject([
      { outcome: 'accepted', reason: 'agreed' },
    ]);
    const quiet: Gate = { name: 'invented', run: () => [] };
    expect(await runGates([quiet], context, reasons)).toEqual([
      { gate: 'invented', outcome: 'passed', findings: [] },
    ]);
  });
});

describe('a release file', () => {
  const text = releaseText(release, []);

  test('gives back the release it holds, byte for byte the same from the same documents', () => {
    expect(readReleaseFile(text)).toEqual(release);
    const again = buildRelease(readLibrary(filesOf(policy())), 'removal').release!;
    expect(releaseText(again, [])).toBe(text);
  });

  test('any flipped byte of it is refused', () => {
    const bytes = new TextEncoder().encode(text);
    const accepted: number[] = [];
    // The results may differ between files of one release, so only they are left out.
    const results = [text.indexOf('"results":[]'), text.indexOf('"results":[]') + '"results":[]'.length];
    for (let at = 0; at < bytes.length; at++) {
      if (at >= results[0]! && at < results[1]!) continue;
      const flipped = bytes.slice();
      flipped[at]! ^= 1;
      if (readReleaseFile(new TextDecoder().decode(flipped)) !== undefined) accepted.push(at);
    }
    expect(accepted).toEqual([]);
  });
});
