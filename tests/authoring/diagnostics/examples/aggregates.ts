import type { Example } from '../provoke.ts';

const URINE = 'facts/urine.json';
const OUTPUT = 'output/ruleset.json';
const STEADY = 'output/steady.rule.json';
const TOTAL =
  '{ "total": { "of": "urine.volumes", "field": "volume", "within": { "since": "catheter.inserted-at" } } }';
const DRY = '{ "fact": "urine.least-rate", "operator": "lessThan", "value": 30 }';
const item = (from: string, to: string): Pick<Example, 'path' | 'from' | 'to'> => ({ path: URINE, from, to });
const run = (from: string, to: string): Pick<Example, 'path' | 'from' | 'to'> => ({ path: OUTPUT, from, to });

/** Mistakes in what is read of a list. */
export const aggregates: readonly Example[] = [
  {
    code: 'unknown-fact',
    mistake: 'an aggregate of a misspelt list',
    ...item(TOTAL, '{ "total": { "of": «"urine.volume"», "field": "volume" } }'),
    hint: 'did you mean `urine.volumes`',
  },
  {
    code: 'unknown-field',
    mistake: 'an aggregate of a misspelt field',
    ...item(TOTAL, '{ "total": { "of": "urine.volumes", "field": «"volum"» } }'),
    hint: 'did you mean `volume`',
  },
  {
    code: 'derivation-wrong-type',
    mistake: 'a sum of codes',
    ...item(TOTAL, '{ "total": { "of": "urine.volumes", "field": «"source"» } }'),
  },
  {
    code: 'constant-outside-limits',
    mistake: 'a sum of what may be negative',
    ...item(TOTAL, '{ "total": { "of": "urine.catheters", "field": «"days-left"» } }'),
  },
  {
    code: 'derivation-wrong-unit',
    mistake: 'a volume from a rate',
    ...item(TOTAL, '{ "greatest": { "of": "urine.volumes", "field": «"rate"», "rank": 2 } }'),
  },
  {
    code: 'derivation-wrong-type',
    mistake: 'the newest code of another list',
    ...item(
      '"codes": "materials",\n      "title": "last source"',
      '"codes": "signs",\n      "title": "last source"',
    ),
    markedIn: {
      path: URINE,
      from: '{ "newest": { "of": "urine.volumes", "field": "source" } }',
      to: '{ "newest": { "of": "urine.volumes", "field": «"source"» } }',
    },
  },
  {
    code: 'window-not-fit',
    mistake: 'the newest of things',
    ...item(
      '{ "newest": { "of": "urine.volumes", "field": "source" } }',
      '{ "newest": { "of": «"urine.catheters"», "field": "use-by" } }',
    ),
    markedIn: {
      path: URINE,
      from: '"type": "code",\n      "codes": "materials",',
      to: '"type": "date",',
    },
  },
  {
    code: 'derivation-wrong-unit',
    mistake: 'a count in millilitres',
    ...item(TOTAL, '{ «"count"»: { "of": "urine.volumes", "distinct": "source" } }'),
  },
  {
    code: 'derivation-wrong-unit',
    mistake: 'a run in millilitres',
    ...item(TOTAL, '{ «"longestRun"»: { "of": "urine.volumes" } }'),
  },
  {
    code: 'empty-list-vacuous',
    mistake: 'every entry is enough, of none',
    path: STEADY,
    from: '"urine.entries", "operator": "greaterThanInclusive", "value": 3',
    to: '"urine.drained", "operator": "greaterThanInclusive", "value": 3',
    markedIn: { path: STEADY, from: '"urine.least-rate"', to: '«"urine.least-rate"»' },
  },
  {
    code: 'empty-list-vacuous',
    mistake: 'no entry is too little, of none, in a named condition',
    ...run('"conditions": {}', `"conditions": { "dry": ${DRY} }`),
    markedIn: {
      path: STEADY,
      from: `{ "fact": "urine.least-rate", "operator": "greaterThanInclusive", "value": 30 },
      { "fact": "urine.entries", "operator": "greaterThanInclusive", "value": 3 },`,
      to: '{ "not": { "condition": «"dry"» } },',
    },
  },
];
