import { hazardProof, readLibrary } from '@dwellset/authoring';
import { describe, expect, it } from 'vitest';
import { filesOf, policy } from './fixture.ts';
import type { Json } from './invented/documents.ts';

interface Hazards extends Json {
  hazards: [{ controls: string[] }];
}

/** The invented policy with these controls of its one hazard. */
function proof(controls: string[], change: (documents: Record<string, Json>) => void = () => {}) {
  const documents = policy();
  const log = documents['hazards.json'] as Hazards;
  log.hazards[0].controls = controls;
  change(documents);
  return hazardProof(readLibrary(filesOf(documents)));
}

describe('a control in the hazard log', () => {
  it('is accepted where the advice is gone once its rule is switched off', () => {
    expect(proof(['removal/day-20'])).toEqual([]);
  });

  it('is accepted where only the question is gone', () => {
    expect(proof(['removal/day-unknown'])).toEqual([]);
  });

  it('is an error where a reader would see the same without the rule', () => {
    const [found, ...more] = proof(['removal/day-20', 'removal/day-10']);
    expect(more).toEqual([]);
    expect(found).toMatchObject({
      code: 'control-proves-nothing',
      severity: 'error',
      path: 'hazards.json',
      pointer: '/hazards/0/controls/1',
      received: 'removal/day-10',
    });
    const text = filesOf(policy()).get('hazards.json') ?? '';
    expect(text.split('\n')[(found?.range.line ?? 1) - 2]).toContain('"removal/day-20"');
    expect(found?.message).toContain('without the rule `overdue`');
  });

  it('is an error where the vignette does not come out as it must', () => {
    const found = proof(['removal/day-20'], (documents) => {
      (documents['removal/overdue.rule.json'] as { when: Json }).when = {
        fact: 'catheter.bypassing',
        operator: 'equal',
        value: true,
      };
    });
    expect(found.map(({ code }) => code)).toEqual(['control-fails']);
  });

  it('is an error where its set cannot be built', () => {
    const found = proof(['removal/day-20'], (documents) => {
      (documents['removal/review.rule.json'] as { evidence: string[] }).evidence = ['nobody'];
    });
    expect(found.map(({ code }) => code)).toEqual(['control-not-run']);
  });

  it('that is no vignette is left to the check', () => {
    expect(proof(['removal/day-2000', 'nowhere/day-20'])).toEqual([]);
  });
});
