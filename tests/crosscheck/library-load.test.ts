import type { Condition } from '@dwellset/core';
import { Engine } from 'json-rules-engine';
import { describe, expect, test } from 'vitest';
import type { TranslationError } from '../../packages/crosscheck/src/translate/translationError.ts';
import { exactly, readings } from './support/readings.ts';
import { leaf } from './support/releases.ts';
import { secondTruth, translateOnly } from './support/secondTruth.ts';

/** The library as it is: loads one rule and says whether it fires on these facts. */
async function fires(conditions: unknown, facts: Record<string, unknown> = {}): Promise<boolean> {
  const engine = new Engine([{ conditions: conditions as never, event: { type: 'held' } }]);
  return (await engine.run(facts)).events.length > 0;
}

const much = leaf('urine.scan', 'greaterThan', 400);
const little = leaf('urine.scan', 'lessThan', 100);
const as = (node: unknown) => node as Condition;
const refusal =
  (node: unknown, parts = {}) =>
  () =>
    translateOnly(as(node), parts);

describe('mistakes that the library takes without a word', () => {
  test('a right side of null: the library holds 5 to be more than nothing; the translation refuses it', async () => {
    expect(
      await fires(
        { all: [{ fact: 'urine.scan', operator: 'greaterThan', value: null }] },
        { 'urine.scan': 5 },
      ),
    ).toBe(true);
    expect(refusal(leaf('urine.scan', 'greaterThan', null))).toThrow('`urine.scan` is compared with null');
    expect(refusal(leaf('urine.scan', 'greaterThan'))).toThrow('`urine.scan` is compared with nothing');
  });

  test('an empty group: the library holds both kinds to be true; the translation refuses both', async () => {
    expect(await fires({ all: [] })).toBe(true);
    expect(await fires({ any: [] })).toBe(true);
    expect(refusal({ all: [] })).toThrow('one/when: `all` is empty');
    expect(refusal({ not: { any: [] } })).toThrow('one/when: `any` is empty');
  });

  test('`all` beside `any`: the library drops `all` silently; the translation refuses the node', async () => {
    expect(await fires({ all: [much], any: [little] }, { 'urine.scan': 50 })).toBe(true);
    expect(refusal({ all: [much], any: [little] })).toThrow('a node has the keys `all any`');
  });

  test('an unknown operator: the library loads it and rejects at the bedside; the translation refuses it at load', async () => {
    const misspelt = leaf('urine.scan', 'greaterThen', 400);
    expect(
      () => new Engine([{ conditions: { all: [misspelt as never] }, event: { type: 'held' } }]),
    ).not.toThrow();
    await expect(fires({ all: [misspelt] }, { 'urine.scan': 5 })).rejects.toThrow(
      'Unknown operator: greaterThen',
    );
    expect(refusal(misspelt)).toThrow('`greaterThen` is not an operator');
  });

  test('a leaf with a key of its own called __proto__: the library rejects the run; the translation refuses it', async () => {
    const poisoned = JSON.parse('{"fact":"urine.scan","operator":"equal","value":5,"__proto__":{"x":1}}');
    await expect(fires({ all: [poisoned] }, { 'urine.scan': 5 })).rejects.toThrow(TypeError);
    expect(refusal(poisoned)).toThrow('a node has the keys `__proto__ fact operator value`');
  });

  test.each(['path', 'params', 'priority', 'name'])(
    '`%s` on a leaf is refused, as the rule language does not have it',
    (key) => {
      expect(refusal({ ...much, [key]: 1 })).toThrow(key);
    },
  );

  test('every mistake of a release is listed once, with its place', () => {
    const mistakes = {
      all: [leaf('urine.scan', 'contains', 'x'), leaf('urine.colour', 'equal', 'red'), { condition: 'gone' }],
    };
    try {
      translateOnly(as(mistakes));
      expect.unreachable();
    } catch (error) {
      expect((error as TranslationError).problems).toEqual([
        'one/when: `contains` has no meaning for `urine.scan`, which is of type number',
        'one/when: `urine.colour` is not a fact of the release',
        'one/when: no condition is named `gone`',
      ]);
    }
  });
});

describe('named conditions', () => {
  const conditions = { full: much, 'not-full': { not: { condition: 'full' } } } as Readonly<
    Record<string, Condition>
  >;

  test('lose their name in the library’s result', async () => {
    const engine = new Engine([{ conditions: { all: [{ condition: 'full' }] }, event: { type: 'held' } }]);
    engine.setCondition('full', { all: [much as never] });
    const [result] = (await engine.run({ 'urine.scan': 500 })).results;
    expect(JSON.stringify(result)).not.toContain('full');
  });

  test('are written out by the translation, through a `not`, with the right answer', async () => {
    const asked = as({ condition: 'not-full' });
    expect(JSON.stringify(translateOnly(asked, { conditions }).patient.rules)).not.toContain('"condition":');
    expect(await secondTruth(asked, readings({ 'urine.scan': exactly(500) }), { conditions })).toBe('false');
    expect(await secondTruth(asked, readings({ 'urine.scan': exactly(50) }), { conditions })).toBe('true');
  });

  test('that refer to themselves exhaust the library; the translation refuses them and shows the way round', async () => {
    const engine = new Engine([{ conditions: { condition: 'a' }, event: { type: 'held' } }]);
    engine.setCondition('a', { all: [{ condition: 'b' }] });
    engine.setCondition('b', { all: [{ condition: 'a' }] });
    await expect(engine.run({})).rejects.toThrow(RangeError);
    const circle = { a: { condition: 'b' }, b: { not: { condition: 'a' } } };
    expect(refusal({ condition: 'a' }, { conditions: circle })).toThrow('`a` refers to itself: a → b → a');
  });
});
