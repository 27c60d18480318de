import type { Example } from '../provoke.ts';

const URINE = 'facts/urine.json';
const OUTPUT = 'output/ruleset.json';
const COUNT = '{ "count": { "of": "urine.volumes" } }';
const read = (to: string): Pick<Example, 'path' | 'from' | 'to'> => ({ path: URINE, from: COUNT, to });
const run = (from: string, to: string): Pick<Example, 'path' | 'from' | 'to'> => ({ path: OUTPUT, from, to });

/** Mistakes in conditions on one entry. */
export const fieldConditions: readonly Example[] = [
  {
    code: 'unit-mismatch',
    mistake: 'a rate compared with a choice of time',
    ...run('{ "parameter": "output.high" }', '{ "parameter": «"output.window"» }'),
  },
  {
    code: 'constant-outside-limits',
    mistake: 'a rate that no entry can have',
    ...run('"value": { "parameter": "output.high" }', '"value": «9000»'),
  },
  {
    code: 'wrong-shape',
    mistake: 'a rate compared with a code',
    ...run('"value": { "parameter": "output.high" }', '"value": «"high"»'),
  },
  {
    code: 'step-mismatch',
    mistake: 'a volume that nothing measures so finely',
    ...read(
      '{ "count": { "of": "urine.volumes", "where": { "field": "volume", "operator": "equal", "value": «1.5» } } }',
    ),
  },
  {
    code: 'code-not-permitted',
    mistake: 'a code that the field does not have',
    ...read(
      '{ "count": { "of": "urine.volumes", "where": { "not": { "field": "source", "operator": "in", "value": [«"latx"»] } } } }',
    ),
    hint: 'did you mean `latex`',
  },
  {
    code: 'unknown-operator',
    mistake: 'a misspelt operator on a field',
    ...run('"operator": "greaterThanInclusive"', '"operator": «"greaterThanInclusiv"»'),
    hint: 'did you mean `greaterThanInclusive`',
  },
  {
    code: 'missing-key',
    mistake: 'a field compared with nothing',
    ...run(
      '"where": { "field": "rate", "operator": "greaterThanInclusive", "value": { "parameter": "output.high" } }',
      '"where": «{» "field": "rate", "operator": "greaterThanInclusive" }',
    ),
  },
  {
    code: 'empty-group',
    mistake: 'a condition on an entry that asks nothing',
    ...read('{ "count": { "of": "urine.volumes", "where": { "any": «[»] } } }'),
  },
  {
    code: 'unknown-key',
    mistake: 'a misspelt key in a condition on an entry',
    ...read(
      '{ "count": { "of": "urine.volumes", "where": { "field": "volume", «"opertor"»: "recorded" } } }',
    ),
    hint: 'did you mean `operator`',
  },
];
