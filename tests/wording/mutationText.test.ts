import { cautions, mutationText, noticesEnough, type SetMutationShown } from '@dwellset/wording';
import { describe, expect, it } from 'vitest';

const whole = { planted: 20, noticed: 20, withoutEffect: 0, percent: 100 };
const set = (rest: Partial<SetMutationShown> = {}): SetMutationShown => ({
  set: 'care',
  vignettes: 3,
  all: whole,
  locked: whole,
  survivors: [],
  ...rest,
});
const text = (one: SetMutationShown): string => mutationText({ sets: [one] }, { releases: [], least: 95 });

describe('what vignettes must notice', () => {
  it('is reached where they notice all', () => {
    expect(noticesEnough(set(), 95)).toBe(true);
    expect(text(set())).toContain('rests\non: reached.');
  });

  it('is refused below the percentage', () => {
    const short = set({ all: { planted: 20, noticed: 18, withoutEffect: 0, percent: 90 } });
    expect(noticesEnough(short, 95)).toBe(false);
    expect(text(short).replace(/\s+/g, ' ')).toContain('not reached in care.');
  });

  it('is refused for one mistake in what a locked rule rests on, however few there are', () => {
    const short = set({ locked: { planted: 20, noticed: 19, withoutEffect: 0, percent: 95 } });
    expect(noticesEnough(short, 0)).toBe(false);
  });

  it('is refused where nothing could be tried, and the cautions stand below', () => {
    const refused = set({ refused: ['a vignette fails'] });
    expect(noticesEnough(refused, 0)).toBe(false);
    expect(text(refused)).toContain('Not tried: a vignette fails');
    for (const caution of cautions) expect(text(refused).replace(/\s+/g, ' ')).toContain(caution);
  });
});
