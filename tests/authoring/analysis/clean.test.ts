import { analyseSet } from '@dwellset/authoring/analysis';
import { describe, expect, it } from 'vitest';
import { CLEAN } from './clean.ts';
import { invented } from './invented.ts';

describe('nothing is found in a set that is as it should be', () => {
  it.each(CLEAN)('$what', (set) => {
    const { findings, refused, stale } = analyseSet(invented(set), 'care');
    expect(refused).toBeUndefined();
    expect(findings.map(({ kind, of, certainty }) => [kind, of, certainty])).toEqual([]);
    expect(stale).toEqual([]);
  });
});
