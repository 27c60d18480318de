import { assess, type Case, compile, type Plan } from '@dwellset/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { random } from '../reference/generate/random.ts';
import { generateReleases } from '../reference/generate/releases.ts';

const plans: Plan[] = Array.from({ length: 4 }, (_, seed) =>
  compile(generateReleases(random(900 + seed)).releases, { allow: ['draft'] }),
);
const factIds = [...new Set(plans.flatMap((plan) => [...plan.facts.keys()]))];
const special = [
  '__proto__',
  'constructor',
  'prototype',
  'toString',
  'hasOwnProperty',
  'value',
  'absent',
  'yes',
  'no',
];
const key = fc.oneof(fc.constantFrom(...special), fc.constantFrom(...factIds), fc.string());

/** Any JSON, as a parser makes it: with `__proto__` as an own key where the text says so. */
const { json } = fc.letrec((tie) => ({
  json: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    fc.constant(null),
    fc.boolean(),
    fc.double({ noNaN: true, noDefaultInfinity: true }),
    fc.oneof(fc.string(), fc.constantFrom('2026-11-25', '2026-11-25T09:00:00Z', 'Europe/London', ...special)),
    fc.array(tie('json'), { maxLength: 4 }),
    tie('object'),
  ),
  object: fc
    .array(fc.tuple(key, tie('json')), { maxLength: 6 })
    .map((entries) =>
      JSON.parse(`{${entries.map(([k, v]) => `${JSON.stringify(k)}:${JSON.stringify(v)}`).join()}}`),
    ),
}));

function everyPlanTakes(value: unknown): void {
  const before = Object.getOwnPropertyNames(Object.prototype).join();
  for (const plan of plans) {
    const assessment = assess(plan, value as Case, { reasons: 'all' });
    expect(assessment.ruleSets.length).toBe(plan.sets.length);
    expect(() => JSON.stringify(assessment)).not.toThrow();
  }
  expect(Object.getOwnPropertyNames(Object.prototype).join()).toBe(before);
  expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
}

test('any JSON as a case gives an assessment, never an exception', () => {
  fc.assert(fc.property(json, everyPlanTakes), { numRuns: 300, seed: 25 });
});

test('any JSON as the parts of a case gives an assessment', () => {
  const moment = fc.oneof(json, fc.constantFrom('2026-11-25T09:00:00Z', '2026-03-29T01:30:00+01:00'));
  const zone = fc.oneof(json, fc.constantFrom('Europe/London', 'Nowhere/None'));
  const parts = fc.record(
    {
      asOf: moment,
      timeZone: zone,
      recordedAt: json,
      searched: json,
      facts: json,
      chosen: json,
      responses: json,
    },
    { requiredKeys: ['asOf', 'facts'] },
  );
  fc.assert(fc.property(parts, everyPlanTakes), { numRuns: 300, seed: 26 });
});

test('any JSON as the value of a fact gives an assessment', () => {
  const facts = fc.dictionary(fc.constantFrom(...factIds), json, { maxKeys: 8 });
  const hand = fc.dictionary(fc.constantFrom('catheter', 'gel', '__proto__'), json, { maxKeys: 2 });
  const patient = fc.record({
    asOf: fc.constant('2026-11-25T09:00:00Z'),
    timeZone: fc.constant('Europe/London'),
    facts,
    chosen: hand,
  });
  fc.assert(fc.property(patient, everyPlanTakes), { numRuns: 400, seed: 27 });
});

test('a key called __proto__ in a case changes nobody else', () => {
  const text =
    '{"asOf":"2026-11-25T09:00:00Z","timeZone":"UTC","facts":{"__proto__":{"polluted":true}},"__proto__":{"polluted":true}}';
  everyPlanTakes(JSON.parse(text));
});
