import { describe, expect, test } from 'vitest';
import { judge, outcomes } from './support/judge.ts';
import { exactly, yesNo } from './support/readings.ts';
import { leaf, parameter, release, rule } from './support/releases.ts';

const inUse = leaf('catheter.in-use', 'equal', true);
const adult = { when: leaf('patient.adult', 'equal', true), otherwise: 'for adults only' };
const full = leaf('urine.scan', 'greaterThanInclusive', { parameter: 'scan.limit' });
const limit = parameter('scan.limit', 'number', 400);

const ward = release({
  scope: inUse,
  population: adult,
  parameters: [limit, parameter('scan.used', 'boolean', false)],
  rules: [
    rule('drain', { when: full }),
    rule('latex', { when: leaf('allergy.latex', 'equal', true), locked: true }),
    rule('everyone', { when: leaf('allergy.latex', 'equal', true), anyPopulation: true }),
    rule('scoped', { scope: leaf('allergy.latex', 'notEqual', true), when: full }),
    rule('off', { when: full, local: { change: 'switched-off', reason: 'not used here' } }),
    rule('not-chosen', { scope: { parameter: 'scan.used', operator: 'equal', value: true }, when: full }),
    rule('always', {}),
  ],
});
const known = { 'catheter.in-use': yesNo(true), 'patient.adult': yesNo(true), 'urine.scan': exactly(400) };

describe('advice on the second engine', () => {
  test('applies at the limit the hospital chose, and asks where latex was never asked', async () => {
    expect(outcomes(await judge(ward, known))).toEqual({
      drain: 'applies',
      latex: 'undetermined',
      everyone: 'undetermined',
      scoped: 'undetermined',
      off: 'switched-off',
      'not-chosen': 'switched-off',
      always: 'applies',
    });
  });

  test('moves with the local limit', async () => {
    const higher = { ...ward, parameters: [{ ...limit, value: 401 }, ward.parameters[1]!] };
    expect(outcomes(await judge(higher, known)).drain).toBe('does-not-apply');
  });

  test('outside the population only a rule for everybody speaks', async () => {
    const child = { ...known, 'patient.adult': yesNo(false), 'allergy.latex': yesNo(true) };
    expect(outcomes(await judge(ward, child))).toMatchObject({
      drain: 'not-in-scope',
      latex: 'not-in-scope',
      everyone: 'applies',
      always: 'not-in-scope',
      off: 'switched-off',
    });
  });

  test('with the population not established a hard stop speaks, other advice waits', async () => {
    const { 'patient.adult': _age, ...ageless } = known;
    expect(outcomes(await judge(ward, { ...ageless, 'allergy.latex': yesNo(true) }))).toMatchObject({
      drain: 'undetermined',
      latex: 'applies',
      everyone: 'applies',
      scoped: 'not-in-scope',
    });
  });

  test('the stage of care binds every rule, locked or not', async () => {
    const removed = { ...known, 'catheter.in-use': yesNo(false), 'allergy.latex': yesNo(true) };
    const all = Object.entries(outcomes(await judge(ward, removed)));
    expect(all.filter(([id]) => !['off', 'not-chosen'].includes(id)).map(([, outcome]) => outcome)).toEqual(
      Array(5).fill('not-in-scope'),
    );
  });

  test('a rule whose scope is open does not apply once its `when` is false', async () => {
    const empty = { ...known, 'urine.scan': exactly(10) };
    expect(outcomes(await judge(ward, empty)).scoped).toBe('does-not-apply');
  });

  test('a scope that a local choice and a fact rule out together is not switched off', async () => {
    const scope = { any: [{ parameter: 'scan.used', operator: 'equal', value: true } as const, inUse] };
    const made = release({ parameters: ward.parameters, rules: [rule('one', { scope, when: full })] });
    expect(
      outcomes(
        await judge(
          { ...made, parameters: [limit, ward.parameters[1]!] },
          { 'catheter.in-use': yesNo(false) },
        ),
      ),
    ).toEqual({
      one: 'not-in-scope',
    });
  });
});
