import type { Example } from '../provoke.ts';

const URINE = 'facts/urine.json';
const ELAPSED = '{ "elapsed": { "from": "from", "to": "to" } }';
const COUNT = '{ "count": { "of": "urine.volumes" } }';
const item = (from: string, to: string): Pick<Example, 'path' | 'from' | 'to'> => ({ path: URINE, from, to });

/** Mistakes in lists and the fields of their entries. */
export const lists: readonly Example[] = [
  {
    code: 'unknown-field',
    mistake: 'a time that is no field',
    ...item('"at": ["from", "to"]', '"at": ["from", «"til"»]'),
  },
  {
    code: 'derivation-wrong-type',
    mistake: 'a time that is a number',
    ...item('"at": ["from", "to"]', '"at": ["from", «"volume"»]'),
  },
  {
    code: 'wrong-shape',
    mistake: 'entries that start and end by one field',
    ...item('"at": ["from", "to"]', '"at": ["from", «"from"»]'),
  },
  {
    code: 'wrong-shape',
    mistake: 'things with a time',
    ...item('"kind": "things",', '"kind": "things", "at": «[»"use-by"],'),
  },
  {
    code: 'wrong-shape',
    mistake: 'an event without a time',
    ...item('"kind": "things"', '"kind": «"events"»'),
  },
  {
    code: 'missing-key',
    mistake: 'a list that does not say how its entries lie in time',
    path: 'facts/catheter.json',
    from: '    {\n      "id": "catheter.attempts",\n      "type": "list",\n      "kind": "events",',
    to: '    «{»\n      "id": "catheter.attempts",\n      "type": "list",',
  },
  {
    code: 'id-grammar',
    mistake: 'a field in capitals',
    ...item('"source": { "type"', '«"Ward"»: { "type": "text", "title": "ward" }, "source": { "type"'),
  },
  {
    code: 'fact-key-not-fit',
    mistake: 'a unit of a field that is a code',
    ...item(
      '"codes": "materials", "title": "source"',
      '"codes": "materials", «"unit"»: "mL", "title": "source"',
    ),
  },
  {
    code: 'missing-key',
    mistake: 'a number without a unit in an entry',
    ...item(
      '"volume": { "type": "number", "unit": "mL",',
      '"weight": «{» "type": "number", "title": "weight" }, "volume": { "type": "number", "unit": "mL",',
    ),
  },
  {
    code: 'limits-order',
    mistake: 'limits of a field in the wrong order',
    ...item('"limits": [0, 5000], "title": "rate"', '"limits": «[»5000, 0], "title": "rate"'),
  },
  {
    code: 'unknown-code-list',
    mistake: 'a field of an unknown code list',
    ...item(
      '"source": { "type": "code", "codes": "materials"',
      '"ward": { "type": "code", "codes": «"wards"», "title": "ward" }, "source": { "type": "code", "codes": "materials"',
    ),
  },
  {
    code: 'unknown-field',
    mistake: 'a field that follows from a misspelt one',
    ...item('["volume", "hours"]', '[«"volme"», "hours"]'),
    hint: 'did you mean `volume`',
  },
  {
    code: 'derivation-wrong-type',
    mistake: 'a rate from a code',
    ...item('["volume", "hours"]', '["volume", «"source"»]'),
  },
  {
    code: 'derivation-wrong-unit',
    mistake: 'a rate by the wrong time',
    ...item('"ratio": ["volume", "hours"]', '«"ratio"»: ["volume", { "value": 2, "unit": "d" }]'),
  },
  {
    code: 'moment-in-entry',
    mistake: 'an entry that grows by the second',
    ...item(ELAPSED, '{ "elapsed": { "from": "from", "to": «"asOf"» } }'),
  },
  {
    code: 'unknown-derivation',
    mistake: 'a field by a kind that only facts have',
    ...item(ELAPSED, '{ «"localHour"»: { "at": "from" } }'),
  },
  {
    code: 'derivation-cycle',
    mistake: 'a field that follows from itself',
    ...item(ELAPSED, '{ "sum": [«"hours"», { "value": 1, "unit": "h" }] }'),
  },
  {
    code: 'fact-key-not-fit',
    mistake: 'a list that follows from something',
    ...item('"kind": "things",', `"kind": "things", «"from"»: ${COUNT},`),
  },
  {
    code: 'wrong-shape',
    mistake: 'an entry of nine fields',
    ...item(
      '"item": {\n        "from":',
      `"item": «{»${['a', 'b', 'c'].map((id) => ` "${id}": { "type": "text", "title": "${id}" },`).join('')} "from":`,
    ),
  },
];
