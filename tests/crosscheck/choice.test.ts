import type { Bounds } from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { judge } from './support/judge.ts';
import { exactly, oneOf, yesNo } from './support/readings.ts';
import { FACTS, fact, leaf, release, rule } from './support/releases.ts';

const isLatex = leaf('option.material', 'equal', 'latex');
const shelf = release({
  shape: 'choice',
  facts: [
    ...FACTS,
    fact('option.material', 'code', { codes: 'materials' }),
    fact('option.size', 'number', { unit: '[Ch]', limits: [5, 30] }),
  ],
  stock: {
    catheter: ['silicone-12', 'latex-12', 'silicone-16', 'latex-16'].map((id) => ({
      id,
      title: id,
      facts: {},
    })),
  },
  rules: [
    rule('no-latex', {
      of: 'catheter',
      when: leaf('allergy.latex', 'equal', true),
      excludes: isLatex,
      locked: true,
    }),
    rule('no-large', {
      of: 'catheter',
      when: leaf('patient.adult', 'equal', false),
      excludes: leaf('option.size', 'greaterThan', 12),
    }),
    rule('soft', {
      of: 'catheter',
      when: leaf('catheter.in-use', 'equal', true),
      prefers: { options: leaf('option.material', 'equal', 'silicone') },
    }),
    rule('thin', { of: 'catheter', prefers: { lowest: 'option.size' } }),
    rule('note', { of: 'catheter', remarks: isLatex }),
  ],
});
const item = (material: string, size: number): Readonly<Record<string, Bounds>> => ({
  'option.material': oneOf(material),
  'option.size': exactly(size),
});
const stock = {
  'silicone-12': item('silicone', 12),
  'latex-12': item('latex', 12),
  'silicone-16': item('silicone', 16),
  'latex-16': item('latex', 16),
};
const states = async (known: Parameters<typeof judge>[1], options: Parameters<typeof judge>[2] = stock) => {
  const { choices } = await judge(shelf, known, options);
  const [choice] = choices!;
  return {
    options: Object.fromEntries(choice!.options.map(({ id, state }) => [id, state])),
    ranks: Object.fromEntries(choice!.ranks),
    provisional: choice!.provisional,
    nothingLeft: choice!.nothingLeft,
  };
};
const noAllergy = {
  'allergy.latex': yesNo(false),
  'patient.adult': yesNo(true),
  'catheter.in-use': yesNo(true),
};

describe('a choice on the second engine', () => {
  test('ranks open options by the preferring rules in their order', async () => {
    expect(await states(noAllergy)).toEqual({
      options: { 'silicone-12': 'open', 'latex-12': 'open', 'silicone-16': 'open', 'latex-16': 'open' },
      ranks: { 'silicone-12': 1, 'silicone-16': 2, 'latex-12': 3, 'latex-16': 4 },
      provisional: false,
      nothingLeft: undefined,
    });
  });

  test('ties share a rank and leave a gap behind them', async () => {
    const { ranks } = await states({ ...noAllergy, 'catheter.in-use': yesNo(false) });
    expect(ranks).toEqual({ 'silicone-12': 1, 'latex-12': 1, 'silicone-16': 3, 'latex-16': 3 });
  });

  test('latex never asked: latex options are held and come last', async () => {
    const { 'allergy.latex': _asked, ...unasked } = noAllergy;
    expect(await states({ ...unasked, 'catheter.in-use': yesNo(false) })).toEqual({
      options: { 'silicone-12': 'open', 'latex-12': 'held', 'silicone-16': 'open', 'latex-16': 'held' },
      ranks: { 'silicone-12': 1, 'silicone-16': 2, 'latex-12': 3, 'latex-16': 4 },
      provisional: true,
      nothingLeft: undefined,
    });
  });

  test('an undecided rule that is not locked leaves its options to confirm, at their rank', async () => {
    const { 'patient.adult': _age, ...ageless } = noAllergy;
    const { options, ranks, provisional } = await states(ageless);
    expect(options).toMatchObject({ 'silicone-12': 'open', 'silicone-16': 'to-confirm' });
    expect(ranks).toEqual({ 'silicone-12': 1, 'silicone-16': 2, 'latex-12': 3, 'latex-16': 4 });
    expect(provisional).toBe(true);
  });

  test('names the fewest rules that leave nothing', async () => {
    const latexOnly = {
      ...shelf,
      stock: { catheter: shelf.stock.catheter!.filter(({ id }) => id !== 'silicone-12') },
    };
    const child = { ...noAllergy, 'allergy.latex': yesNo(true), 'patient.adult': yesNo(false) };
    const { choices } = await judge(latexOnly, child, stock);
    expect(choices![0]).toMatchObject({ nothingLeft: ['no-latex', 'no-large'], provisional: false });
    expect(choices![0]!.ranks.size).toBe(0);
    expect(choices![0]!.options.find(({ id }) => id === 'latex-16')?.excludedBy).toEqual([
      'no-latex',
      'no-large',
    ]);
  });

  test('an option whose size is not on the label cannot be called the smallest', async () => {
    const unlabelled = { ...stock, 'silicone-12': { 'option.material': oneOf('silicone') } };
    const { ranks, provisional } = await states(noAllergy, unlabelled);
    expect(ranks).toEqual({ 'silicone-16': 1, 'silicone-12': 2, 'latex-12': 3, 'latex-16': 4 });
    expect(provisional).toBe(true);
  });

  test('an undecided preference counts and makes the order provisional', async () => {
    const { 'catheter.in-use': _use, ...open } = noAllergy;
    expect(await states(open)).toMatchObject({
      provisional: true,
      ranks: { 'silicone-12': 1, 'silicone-16': 2, 'latex-12': 3 },
    });
  });

  test('outside the population nothing is offered, and only what a stop rules out is still said', async () => {
    const adults = {
      ...shelf,
      population: { when: leaf('patient.adult', 'equal', true), otherwise: 'for adults only' },
      rules: shelf.rules.map((one) => (one.id === 'no-latex' ? { ...one, anyPopulation: true } : one)),
    };
    const child = { ...noAllergy, 'patient.adult': yesNo(false), 'allergy.latex': yesNo(true) };
    const [outside] = (await judge(adults, child, { ...stock, chosen: item('silicone', 12) })).choices!;
    expect(outside?.options.map(({ id, state }) => [id, state])).toEqual([
      ['latex-12', 'ruled-out'],
      ['latex-16', 'ruled-out'],
    ]);
    expect(outside).toMatchObject({ ranks: new Map(), provisional: false });
    expect(outside).not.toHaveProperty('nothingLeft');
    expect(outside).not.toHaveProperty('chosen');
    const { choices } = await judge(adults, { ...child, 'allergy.latex': yesNo(false) }, stock);
    expect(choices).toEqual([]);
  });

  test('with the population not established the order is provisional', async () => {
    const adults = {
      ...shelf,
      population: { when: leaf('patient.adult', 'recorded'), otherwise: 'for adults only' },
    };
    const { 'patient.adult': _age, ...ageless } = noAllergy;
    const plain = { ...adults, rules: adults.rules.filter(({ id }) => id === 'note') };
    expect((await judge(plain, noAllergy, stock)).choices![0]?.provisional).toBe(false);
    expect((await judge(plain, ageless, stock)).choices![0]?.provisional).toBe(true);
  });

  test('the item in the hand is judged like an option', async () => {
    const known = { ...noAllergy, 'allergy.latex': yesNo(true) };
    const [withItem] = (await judge(shelf, known, { ...stock, chosen: item('latex', 14) })).choices!;
    expect(withItem?.chosen).toMatchObject({
      state: 'ruled-out',
      excludedBy: ['no-latex'],
      remarkedBy: ['note'],
    });
    const [without] = (await judge(shelf, known, stock)).choices!;
    expect(without?.chosen).toBeUndefined();
  });
});
