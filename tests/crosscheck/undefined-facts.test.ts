import type { Condition } from '@dwellset/core';
import { Engine } from 'json-rules-engine';
import { describe, expect, test } from 'vitest';
import { readings } from './support/readings.ts';
import { leaf } from './support/releases.ts';
import { secondTruth, translateOnly } from './support/secondTruth.ts';

/** How the library itself answers when nobody supplied the fact. */
async function alone(condition: Condition, options: { allowUndefinedFacts?: boolean }): Promise<boolean> {
  const engine = new Engine(
    [{ conditions: { all: [condition as never] }, event: { type: 'held' } }],
    options,
  );
  return (await engine.run({})).events.length > 0;
}

const silicone = leaf('catheter.material', 'equal', 'silicone');
const notSilicone = leaf('catheter.material', 'notEqual', 'silicone');
const notLatex = leaf('catheter.material', 'notIn', ['latex', 'pvc']);

describe('a catheter material that nobody supplied', () => {
  test('makes the library reject the whole run', async () => {
    await expect(alone(silicone, {})).rejects.toThrow('Undefined fact: catheter.material');
  });

  test.each([
    ['equal', silicone, false],
    ['notEqual', notSilicone, true],
    ['notIn', notLatex, true],
    ['not', { not: silicone } as Condition, true],
  ])('becomes an answer with allowUndefinedFacts: %s', async (_name, condition, answer) => {
    expect(await alone(condition, { allowUndefinedFacts: true })).toBe(answer);
  });

  test.each([
    ['equal', silicone],
    ['notEqual', notSilicone],
    ['notIn', notLatex],
    ['not', { not: silicone } as Condition],
    ['not, twice', { not: { not: silicone } } as Condition],
    ['not over a group', { not: { any: [silicone, notLatex] } } as Condition],
  ])('stays unknown in the translation: %s', async (_name, condition) => {
    expect(await secondTruth(condition, readings({}))).toBe('unknown');
  });

  test('stops the run by name if no bounds are handed over at all', async () => {
    await expect(secondTruth(silicone, new Map())).rejects.toThrow(
      'reads `catheter.material`, which was not handed over',
    );
  });

  test('leaves no `not` for the engine to get wrong', () => {
    const rules = JSON.stringify(
      translateOnly({ not: { all: [silicone, { not: notLatex }] } }).patient.rules,
    );
    expect(rules).not.toContain('"not"');
    expect(rules).toContain('"any"');
    expect(rules).toContain('possibly:notEqual');
  });
});
