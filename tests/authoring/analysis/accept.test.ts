import { withDocument } from '@dwellset/authoring';
import { analyseSet, isSettled } from '@dwellset/authoring/analysis';
import { describe, expect, it } from 'vitest';
import type { Json } from '../invented/documents.ts';
import { byDefault, fever, hours, type Invented, invented, latex, not, pain } from './invented.ts';

const analysed = (set: Invented) => analyseSet(invented(set), 'care');

/** A conclusion that never stands. */
const shadowed = (limit: number, rest: Partial<Invented> = {}): Invented => ({
  set: byDefault('stop', 'go'),
  rules: {
    one: { when: hours('>', 5), concludes: 'stop' },
    two: { when: hours('>', limit), concludes: 'go' },
  },
  ...rest,
});
const digestOf = (set: Invented): string => analysed(set).findings[0]!.digest;
const acceptance = (digest: string, rest: Json = {}): Json => ({
  finding: 'never-stands',
  of: ['two', 'one'],
  digest,
  reason: 'It is written out for those who read the rules.',
  ...rest,
});

describe('a finding that may stay', () => {
  it('is accepted with its reason, and leaves nothing open', () => {
    const open = analysed(shadowed(9));
    expect(isSettled(open)).toBe(false);
    const accepted = analysed(shadowed(9, { accepted: [acceptance(digestOf(shadowed(9)))] }));
    expect(accepted.findings).toMatchObject([
      {
        kind: 'never-stands',
        accepted: {
          reason: 'It is written out for those who read the rules.',
          place: { path: 'accepted/care.json' },
        },
      },
    ]);
    expect(isSettled(accepted)).toBe(true);
  });

  it('is open again as soon as what it rests on is another', () => {
    const changed = analysed(shadowed(8, { accepted: [acceptance(digestOf(shadowed(9)))] }));
    expect(changed.findings[0]?.accepted).toBeUndefined();
    expect(changed.stale).toMatchObject([{ why: 'changed', digest: digestOf(shadowed(8)) }]);
    expect(isSettled(changed)).toBe(false);
  });

  it('stays accepted where only words are changed', () => {
    const { rules } = shadowed(9);
    const reworded = shadowed(9, { rules: { ...rules, two: { ...rules.two, because: 'Another reason.' } } });
    expect(digestOf(reworded)).toBe(digestOf(shadowed(9)));
  });

  it('is not accepted where it is not found: the acceptance is named', () => {
    const gone = analysed(shadowed(4, { accepted: [acceptance('0'.repeat(64))] }));
    expect(gone.findings).toEqual([]);
    expect(gone.stale).toMatchObject([{ kind: 'never-stands', of: ['two', 'one'], why: 'not-found' }]);
    expect(isSettled(gone)).toBe(false);
  });

  it('is accepted by a hospital of its amended set, which the published set does not hear of', () => {
    const published = shadowed(9);
    const own = (accepted: readonly Json[]) =>
      withDocument(
        invented(shadowed(9, { accepted: [acceptance(digestOf(published))] })),
        'hospitals/saltby/accepted/care.json',
        JSON.stringify({ $schema: 'urn:dwellset:accepted:1', set: 'care', accepted }),
      );
    const idle = acceptance('0'.repeat(64), { finding: 'gap', of: ['conclusion'] });
    const there = analyseSet(own([idle]), 'care', { hospital: 'saltby' });
    // What the published set accepts holds here too, as far as it rests on the same.
    expect(there.findings[0]?.accepted?.place.path).toBe('accepted/care.json');
    expect(there.stale).toMatchObject([
      { why: 'not-found', place: { path: 'hospitals/saltby/accepted/care.json' } },
    ]);
    expect(isSettled(analyseSet(own([idle]), 'care'))).toBe(true);
    const [finding] = analyseSet(own([acceptance(digestOf(published))]), 'care', {
      hospital: 'saltby',
    }).findings;
    expect(finding?.accepted?.place.path).toBe('hospitals/saltby/accepted/care.json');
  });

  it('of a stock list is open again when an item is another', () => {
    const none = (sizes: readonly number[]): Invented => ({
      sizes,
      rules: {
        one: { of: 'catheter', when: pain, excludes: latex },
        two: { of: 'catheter', when: fever, excludes: not(latex) },
      },
    });
    expect(digestOf(none([12, 13]))).not.toBe(digestOf(none([12, 15])));
  });
});
