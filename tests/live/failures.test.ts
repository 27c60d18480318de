import { assessLive, compile, type FactProvider } from '@dwellset/core';
import { expect, test } from 'vitest';
import { makeCase, makeFact, makeRelease, makeRule } from '../reference/release.ts';

const fact = (id: string) => makeFact(id, { type: 'boolean' });
const isTrue = (id: string) => ({ fact: id, operator: 'equal' as const, value: true });
const release = makeRelease({
  facts: [fact('a.yes'), fact('a.other')],
  rules: [makeRule('both', { when: { all: [isTrue('a.yes'), isTrue('a.other')] } })],
});
const plan = compile([release], { allow: ['draft'] });
const gives = (id: string, cost: number, value: boolean): FactProvider<AbortSignal> => ({
  facts: [id],
  cost,
  fetch: () => Promise.resolve({ [id]: value }),
});
const hangs = (id: string, cost: number): FactProvider<AbortSignal> => ({
  facts: [id],
  cost,
  fetch: () => new Promise(() => {}),
});
const outcome = async (live: ReturnType<typeof assessLive>) =>
  (await live).assessment.ruleSets[0]?.rules[0]?.outcome;

test('the cheap answer that settles the rule spares the dear one', async () => {
  const live = await assessLive(plan, makeCase({}), [gives('a.yes', 9, true), gives('a.other', 1, false)]);
  expect(live.fetched).toEqual([{ provider: 1, cost: 1, for: ['a.other'] }]);
  expect(live.spared).toEqual([{ provider: 0, cost: 9, because: 'not-needed' }]);
  expect(live.case.facts).toEqual({ 'a.other': false, 'a.yes': { absent: 'not-needed' } });
});

test('a fetch that takes too long ends as unknown, and the others go on', async () => {
  const providers = [hangs('a.yes', 1), gives('a.other', 2, true)];
  const late = new DOMException('too late', 'TimeoutError');
  const limit = (provider: FactProvider<AbortSignal>) =>
    provider.cost === 1 ? AbortSignal.abort(late) : new AbortController().signal;
  const live = assessLive(plan, makeCase({}), providers, { limit });
  expect((await live).fetched.map(({ failure }) => failure)).toEqual(['timed-out', undefined]);
  expect((await live).case.facts).toEqual({ 'a.yes': { absent: 'error' }, 'a.other': true });
  expect(await outcome(live)).toBe('undetermined');
});

test('a cancelled run ends at once with what is known', async () => {
  const cancel = new AbortController();
  const live = assessLive(plan, makeCase({}), [hangs('a.yes', 1), gives('a.other', 2, true)], {
    signal: cancel.signal,
  });
  cancel.abort();
  expect((await live).fetched.map(({ failure }) => failure)).toEqual(['cancelled', 'cancelled']);
  expect(await outcome(live)).toBe('undetermined');
});

test('where one provider fails, the next one of the same fact is asked', async () => {
  const broken: FactProvider<AbortSignal> = {
    facts: ['a.yes'],
    cost: 1,
    fetch: () => {
      throw new Error('down');
    },
  };
  const live = assessLive(plan, makeCase({ 'a.other': true }), [gives('a.yes', 5, true), broken]);
  expect((await live).fetched.map(({ failure }) => failure)).toEqual(['rejected', undefined]);
  expect(await outcome(live)).toBe('applies');
});
