import { Engine, type RuleProperties } from 'json-rules-engine';
import { describe, expect, test } from 'vitest';
import { boundsOf, type Translation, toJsonRulesEngine } from '../../packages/crosscheck/src/index.ts';
import { exactly, readings, yesNo } from './support/readings.ts';
import { leaf, parameter, release, rule } from './support/releases.ts';

const ward = release({
  scope: leaf('catheter.in-use', 'equal', true),
  parameters: [parameter('scan.limit', 'number', 400), parameter('scan.used', 'boolean', true)],
  conditions: { full: leaf('urine.scan', 'greaterThan', { parameter: 'scan.limit' }) },
  rules: [
    rule('drain', {
      scope: { parameter: 'scan.used', operator: 'equal', value: true },
      when: { condition: 'full' },
    }),
    rule('wait', { when: { not: { all: [{ condition: 'full' }, leaf('allergy.latex', 'equal', true)] } } }),
  ],
});

/** What a team does that already runs the library: nothing of ours but the translation. */
async function onTheirEngine(translation: Translation, known: Parameters<typeof readings>[0]) {
  const engine = new Engine();
  for (const { name, evaluate } of translation.operators) engine.addOperator(name, evaluate);
  for (const rule of translation.patient.rules) engine.addRule(rule as unknown as RuleProperties);
  const given = readings(known);
  const facts = translation.patient.facts.map((id) => [id, boundsOf(given.get(id)!)] as const);
  const { events } = await engine.run({ ...translation.constants, ...Object.fromEntries(facts) });
  return events.map(({ type, params }) => `${params?.rule ?? ''} ${params?.part} ${type}`.trim()).sort();
}

describe('the translation for teams that run json-rules-engine', () => {
  test('is plain JSON: a team can keep it in a file', () => {
    const { operators: _functions, ...data } = toJsonRulesEngine(ward);
    expect(JSON.parse(JSON.stringify(data))).toEqual(data);
  });

  test('names the facts that every run needs, and no others', () => {
    expect(toJsonRulesEngine(ward).patient.facts).toEqual(['allergy.latex', 'catheter.in-use', 'urine.scan']);
  });

  test('gives every part of a rule as a pair, with local choices already decided', () => {
    const { patient } = toJsonRulesEngine(ward);
    expect(patient.rules.map(({ name }) => name)).toEqual([
      'invented/gate/certainly',
      'invented/gate/possibly',
      'invented/drain/scope/certainly',
      'invented/drain/scope/possibly',
      'invented/drain/when/certainly',
      'invented/drain/when/possibly',
      'invented/wait/when/certainly',
      'invented/wait/when/possibly',
    ]);
    expect(patient.rules[7]?.conditions).toEqual({
      all: [
        {
          any: [
            { fact: 'urine.scan', operator: 'possibly:lessThanInclusive', value: 400 },
            { fact: 'allergy.latex', operator: 'possibly:notEqual', value: true },
          ],
        },
      ],
    });
  });

  test('tells on a plain engine what holds, what is unknown and what fails', async () => {
    const translation = toJsonRulesEngine(ward);
    expect(
      await onTheirEngine(translation, { 'catheter.in-use': yesNo(true), 'urine.scan': exactly(500) }),
    ).toEqual([
      'drain scope certainly',
      'drain scope possibly',
      'drain when certainly',
      'drain when possibly',
      'gate certainly',
      'gate possibly',
      'wait when possibly',
    ]);
    expect(
      await onTheirEngine(translation, { 'catheter.in-use': yesNo(false), 'urine.scan': exactly(5) }),
    ).toEqual(['drain scope certainly', 'drain scope possibly', 'wait when certainly', 'wait when possibly']);
  });
});
