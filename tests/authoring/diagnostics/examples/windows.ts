import type { Example } from '../provoke.ts';

const URINE = 'facts/urine.json';
const OUTPUT = 'output/ruleset.json';
const COUNT = '{ "count": { "of": "urine.volumes" } }';
const TOTAL =
  '{ "total": { "of": "urine.volumes", "field": "volume", "within": { "since": "catheter.inserted-at" } } }';
const LAST = '"last": { "parameter": "output.window" }';
const item = (from: string, to: string): Pick<Example, 'path' | 'from' | 'to'> => ({ path: URINE, from, to });
const read = (to: string): Pick<Example, 'path' | 'from' | 'to'> => ({ path: URINE, from: COUNT, to });
const run = (from: string, to: string): Pick<Example, 'path' | 'from' | 'to'> => ({ path: OUTPUT, from, to });

/** Mistakes in the stretch of time that is looked at. */
export const windows: readonly Example[] = [
  {
    code: 'window-not-fit',
    mistake: 'a window over things',
    ...item(
      '"facts": [',
      `"facts": [
    {
      "id": "urine.spares", "type": "number", "unit": "1", "title": "x", "question": "x?",
      "from": { "count": { "of": "urine.catheters", «"within"»: { "newest": 2 } } }
    },`,
    ),
  },
  {
    code: 'window-not-fit',
    mistake: 'a window that says nothing',
    ...read('{ "count": { "of": "urine.volumes", "within": «{»} } }'),
  },
  {
    code: 'window-not-fit',
    mistake: 'a window from a day on',
    ...item('{ "since": "catheter.inserted-at" }', '{ "since": «"catheter.use-by"» }'),
  },
  {
    code: 'unknown-fact',
    mistake: 'a window from a misspelt fact on',
    ...item('{ "since": "catheter.inserted-at" }', '{ "since": «"catheter.insrted-at"» }'),
    hint: 'did you mean `catheter.inserted-at`',
  },
  {
    code: 'window-not-fit',
    mistake: 'a window of some litres',
    ...run(LAST, '"last": { "value": 6, "unit": «"L"» }'),
  },
  {
    code: 'window-not-fit',
    mistake: 'a window of no length',
    ...run(LAST, '"last": { "value": «0», "unit": "h" }'),
  },
  {
    code: 'parameter-not-fit',
    mistake: 'a window as long as a choice in days',
    ...run(LAST, '"last": { "parameter": «"output.days"» }'),
  },
  {
    code: 'unknown-parameter',
    mistake: 'a window as long as a misspelt choice',
    ...run(LAST, '"last": { "parameter": «"output.widow"» }'),
    hint: 'did you mean `output.window`',
  },
  {
    code: 'wrong-shape',
    mistake: 'a window of half an entry',
    ...read('{ "count": { "of": "urine.volumes", "within": { "newest": «0.5» } } }'),
  },
  {
    code: 'derivation-misplaced',
    mistake: 'a window of local length in the dictionary',
    ...read(
      '{ «"count"»: { "of": "urine.volumes", "within": { "last": { "parameter": "output.window" } } } }',
    ),
  },
  {
    code: 'derivation-cycle',
    mistake: 'a window that starts at what follows from it',
    ...item(
      TOTAL,
      '{ "total": { "of": "urine.volumes", "field": "volume", "within": { "since": "urine.last-end" } } }',
    ),
    markedIn: {
      path: URINE,
      from: '"facts": [',
      to: `"facts": [
    {
      "id": "urine.last-end", "type": "date-time", "title": "x", "question": "x?",
      "from": { "newest": { "of": "urine.volumes", "field": "to", "within": { "since": «"urine.last-end"» } } }
    },`,
    },
  },
];
