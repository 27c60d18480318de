/// <reference types="node" />
import { readdirSync, readFileSync } from 'node:fs';
import { type Assessment, assess, compile } from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { referenceAssess } from '../reference/assess.ts';
import { caseOf, type Expected, releasesOf, type WorkedExample } from './worked-example.ts';

const FOLDER = new URL('./worked-examples/', import.meta.url);
const examples = readdirSync(FOLDER).map((name) => ({
  name: name.replace('.json', '').replaceAll('-', ' '),
  example: JSON.parse(readFileSync(new URL(name, FOLDER), 'utf8')) as WorkedExample,
}));

/** What the assessment says about one rule set, in the example's words; only what the example asks for. */
function said(assessment: Assessment, set: string, expected: Expected) {
  const result = assessment.ruleSets.find(({ id }) => id === set);
  const choice = result?.choices?.[0];
  const rules = result?.rules.map((rule) => [rule.id, rule.check ?? rule.outcome]);
  const ranked = choice?.options.filter((option) => option.rank !== undefined).map((option) => option.id);
  const everything: Readonly<Record<keyof Expected, unknown>> = {
    rules: Object.fromEntries(rules ?? []),
    speaks: assessment.advice.filter((advice) => advice.set === set).map((advice) => advice.rule),
    compliance: result?.compliance,
    conclusion: result?.conclusion?.id,
    settled: result?.conclusion?.settled,
    possible: result?.conclusion?.possible,
    options: Object.fromEntries(choice?.options.map((option) => [option.id, option]) ?? []),
    first: ranked?.[0],
    order: ranked,
    provisional: choice?.provisional,
    remarks: Object.fromEntries(
      choice?.options.map(({ id, remarks }) => [id, remarks.map(({ rule }) => rule)]) ?? [],
    ),
  };
  return Object.fromEntries(Object.keys(expected).map((key) => [key, everything[key as keyof Expected]]));
}

describe.each(examples)('worked example: $name', ({ example }) => {
  test.each(example.cases)('$title', (brief) => {
    const releases = releasesOf(example, brief.choices);
    const patient = caseOf(brief);
    const assessment = assess(compile(releases, { allow: ['draft'] }), patient);
    for (const [set, expected] of Object.entries(brief.expect))
      expect(said(assessment, set, expected)).toMatchObject(expected);
    const { sets } = referenceAssess(releases, patient);
    const outcomes = assessment.ruleSets.map(({ rules }) => rules.map(({ id, outcome }) => [id, outcome]));
    expect(sets.map(({ rules }) => Object.entries(rules))).toEqual(outcomes);
  });
});
