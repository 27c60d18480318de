import type { Example } from '../provoke.ts';

const LONG = 'stops/dwell-long.rule.json';
const NOTED = 'stops/dwell-noted.rule.json';
const NOTED_WHEN = '{ "fact": "catheter.size", "operator": "greaterThan", "value": 12 }';
const STOPS = 'stops/ruleset.json';

const noted = (to: string): Pick<Example, 'path' | 'from' | 'to'> => ({ path: NOTED, from: NOTED_WHEN, to });

/** Mistakes in conditions. */
export const conditions: readonly Example[] = [
  {
    code: 'unknown-fact',
    mistake: 'a misspelt fact',
    ...noted('{ "fact": «"catheter.sise"», "operator": "greaterThan", "value": 12 }'),
    hint: 'did you mean `catheter.size`',
  },
  {
    code: 'unknown-parameter',
    mistake: 'a misspelt parameter',
    path: LONG,
    from: '{ "parameter": "dwell.limit" }',
    to: '{ "parameter": «"dwell.limt"» }',
    hint: 'did you mean `dwell.limit`',
  },
  {
    code: 'parameter-not-in-uses',
    mistake: 'a parameter of a topic that the set does not use',
    path: 'bundle/size-noted.rule.json',
    from: '{ "fact": "catheter.size", "operator": "recorded" }',
    to: '{ "parameter": «"dwell.enabled"», "operator": "equal", "value": true }',
  },
  {
    code: 'unknown-topic',
    mistake: 'a misspelt topic',
    path: 'bundle/ruleset.json',
    from: '"uses": []',
    to: '"uses": [«"dwel"»]',
    hint: 'did you mean `dwell`',
  },
  {
    code: 'unknown-condition',
    mistake: 'a misspelt condition',
    path: LONG,
    from: '{ "condition": "ill-adult" }',
    to: '{ "condition": «"ill-adlut"» }',
    hint: 'did you mean `ill-adult`',
  },
  {
    code: 'two-keys-in-node',
    mistake: 'a node with both groups',
    ...noted(`{ "all": [${NOTED_WHEN}], «"any"»: [${NOTED_WHEN}] }`),
  },
  { code: 'empty-group', mistake: 'a group of nothing', ...noted('{ "all": «[»] }') },
  {
    code: 'empty-group',
    mistake: 'a list of no code',
    ...noted('{ "fact": "catheter.material", "operator": "in", "value": «[»] }'),
  },
  {
    code: 'refused-key',
    mistake: 'a path into a fact',
    ...noted('{ "fact": "catheter.size", «"path"»: "$.size", "operator": "greaterThan", "value": 12 }'),
  },
  {
    code: 'refused-key',
    mistake: 'parameters of a fact',
    ...noted('{ "fact": "catheter.size", "operator": "greaterThan", "value": 12, «"params"»: {} }'),
  },
  {
    code: 'refused-decorator',
    mistake: 'a decorated operator',
    ...noted('{ "fact": "catheter.size", "operator": «"not:greaterThan"», "value": 12 }'),
  },
  {
    code: 'unknown-operator',
    mistake: 'a misspelt operator, with one diagnostic and not one for each kind of node',
    ...noted('{ "fact": "catheter.size", "operator": «"graeterThan"», "value": 12 }'),
    hint: 'did you mean `greaterThan`',
  },
  {
    code: 'unknown-key',
    mistake: 'a misspelt group',
    ...noted(`{ «"al"»: [${NOTED_WHEN}] }`),
    hint: 'did you mean `all`',
  },
  {
    code: 'unknown-key',
    mistake: 'a misspelt key of a leaf, which is not missing as well',
    ...noted('{ "fact": "catheter.size", «"operater"»: "greaterThan", "value": 12 }'),
    hint: 'did you mean `operator`',
  },
  {
    code: 'missing-key',
    mistake: 'a leaf without a value',
    ...noted('«{» "fact": "catheter.size", "operator": "equal" }'),
  },
  {
    code: 'value-not-taken',
    mistake: 'a value for `recorded`',
    ...noted('{ "fact": "catheter.size", "operator": "recorded", «"value"»: true }'),
  },
  {
    code: 'operator-not-fit',
    mistake: 'an order of codes',
    ...noted('{ "fact": "catheter.material", "operator": «"lessThan"», "value": "latex" }'),
  },
  {
    code: 'operator-not-fit',
    mistake: 'asking whether a parameter is recorded',
    path: LONG,
    from: '{ "parameter": "dwell.enabled", "operator": "equal", "value": true }',
    to: '{ "parameter": "dwell.enabled", "operator": «"recorded"», "value": true }',
  },
  {
    code: 'code-not-permitted',
    mistake: 'a misspelt code',
    ...noted('{ "fact": "catheter.material", "operator": "equal", "value": «"silicon"» }'),
    hint: 'did you mean `silicone`',
  },
  {
    code: 'wrong-shape',
    mistake: 'a number as text',
    ...noted('{ "fact": "catheter.size", "operator": "equal", "value": «"12"» }'),
  },
  {
    code: 'step-mismatch',
    mistake: 'a half size',
    ...noted('{ "fact": "catheter.size", "operator": "greaterThan", "value": «12.5» }'),
  },
  {
    code: 'constant-outside-limits',
    mistake: 'a size that cannot be',
    ...noted('{ "fact": "catheter.size", "operator": "greaterThan", "value": «40» }'),
  },
  {
    code: 'bad-date',
    mistake: 'a day for an instant',
    ...noted('{ "fact": "catheter.inserted-at", "operator": "before", "value": «"2026-01-01"» }'),
  },
  {
    code: 'unit-mismatch',
    mistake: 'days compared with a size',
    ...noted(
      '{ "fact": "catheter.size", "operator": "greaterThan", "value": { "parameter": «"dwell.limit"» } }',
    ),
  },
  {
    code: 'parameter-not-fit',
    mistake: 'a list compared with a number',
    ...noted(
      '{ "fact": "catheter.size", "operator": "greaterThan", "value": { "parameter": «"dwell.signs"» } }',
    ),
  },
  {
    code: 'step-mismatch',
    mistake: 'a parameter in finer steps than the fact',
    path: 'facts/catheter.json',
    from: '"step": 1,\n      "decimals": 0,\n      "limits": [0, 400]',
    to: '"step": 2,\n      "decimals": 0,\n      "limits": [0, 400]',
    markedIn: { path: LONG, from: '{ "parameter": "dwell.limit" }', to: '{ "parameter": «"dwell.limit"» }' },
  },
  {
    code: 'constant-outside-limits',
    mistake: 'a parameter that may leave the limits of the fact',
    path: 'facts/catheter.json',
    from: '"limits": [0, 400]',
    to: '"limits": [0, 50]',
    markedIn: { path: LONG, from: '{ "parameter": "dwell.limit" }', to: '{ "parameter": «"dwell.limit"» }' },
  },
  {
    code: 'condition-cycle',
    mistake: 'a condition that names itself',
    path: STOPS,
    from: '{ "fact": "patient.signs", "operator": "containsAny", "value": { "parameter": "dwell.signs" } }',
    to: '{ "not": { "condition": "ill-adult" } }',
    markedIn: { path: STOPS, from: '[{ "condition": "ill" }', to: '[{ "condition": «"ill"» }' },
  },
  {
    code: 'option-fact-in-when',
    mistake: 'an item of stock in `when`',
    path: 'kit/no-latex.rule.json',
    from: '"when": { "fact": "allergy.latex", "operator": "equal", "value": true }',
    to: '"when": { "fact": «"option.size"», "operator": "equal", "value": 12 }',
  },
  {
    code: 'option-fact-in-when',
    mistake: 'a condition about items in `when`',
    path: 'kit/no-latex.rule.json',
    from: '"when": { "fact": "allergy.latex", "operator": "equal", "value": true }',
    to: '"when": { "condition": «"latex-item"» }',
  },
];
