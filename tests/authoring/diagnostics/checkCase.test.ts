import { expect, test } from 'vitest';
import { checkCase } from '../../../packages/authoring/src/check/caseReader.ts';
import { readLibrary } from '../../../packages/authoring/src/library.ts';
import { base } from './base.ts';

const library = readLibrary(base);
const found = (text: string) =>
  checkCase(library, 'ward.case.json', text).map(({ code, range, hint }) => [
    code,
    range.line,
    range.column,
    hint,
  ]);

const MOMENT = '"asOf": "2026-11-02T08:00:00+00:00",\n"timeZone": "Europe/London",';

test('accepts a case without `$schema`', () => {
  expect(found(`{ ${MOMENT} "facts": { "allergy.latex": null } }`)).toEqual([]);
});

test('misses the moment and the time zone', () => {
  expect(found('{ "facts": {} }')).toEqual([
    ['missing-key', 1, 1, undefined],
    ['missing-key', 1, 1, undefined],
  ]);
});

test('finds all problems of a case in one pass, in the order in which they stand', () => {
  const text = `{
  "asOf": "2026-11-31T08:00:00+00:00",
  "timeZone": "Europe/Londn",
  "facts": {
    "allergy.latx": true,
    "patient.urine": { "value": 1.5, "unit": "L" },
    "catheter.material": "silicon",
    "patient.signs": ["fever", "chill"],
    "catheter.use-by": "2026-13",
    "catheter.removed-at": "yesterday",
    "patient.age-years": { "value": 200, "unit": "a" }
  }
}`;
  expect(found(text)).toEqual([
    ['bad-date', 2, 11, undefined],
    ['timezone', 3, 15, undefined],
    ['unknown-fact', 5, 5, 'did you mean `allergy.latex`'],
    ['wrong-unit', 6, 46, 'write `{"value":1500,"unit":"mL"}`'],
    ['code-not-permitted', 7, 26, 'did you mean `silicone`'],
    ['code-not-permitted', 8, 32, undefined],
    ['bad-date', 9, 24, undefined],
    ['bad-date', 10, 28, undefined],
    ['impossible-value', 11, 37, undefined],
  ]);
});

test('takes a month where the fact says which day it means, and a day for an instant', () => {
  expect(
    found(`{ ${MOMENT} "facts": { "catheter.use-by": "2027-02", "catheter.inserted-at": "2026-10-30" } }`),
  ).toEqual([]);
});

test('takes a value of a derived fact, and an item in the hand by its attributes', () => {
  const facts = '"facts": { "catheter.days": { "value": 4, "unit": "d" } }';
  const chosen = '"chosen": { "catheter": { "option.material": "latex" } }';
  expect(found(`{ ${MOMENT} ${facts}, ${chosen} }`)).toEqual([]);
});

test('reports a broken case once', () => {
  expect(found('{ "asOf": }')).toEqual([['broken-json', 1, 11, undefined]]);
});
