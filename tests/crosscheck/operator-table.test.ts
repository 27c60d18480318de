import type { Bounds, Reading } from '@dwellset/core';
import { FALSE, OPERATORS, TRUE, UNKNOWN } from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { answers, between, exactly, oneOf, readings, yesNo } from './support/readings.ts';
import { FACTS, leaf } from './support/releases.ts';
import { secondTruth, translateOnly } from './support/secondTruth.ts';

const DAY = (text: string) => Date.parse(text) / 86_400_000;
const AT = (text: string) => Date.parse(text);
const day = '2026-11-25';
const noon = '2026-11-25T12:00:00Z';

type Row = readonly [
  fact: string,
  known: Bounds | null | undefined,
  operator: string,
  value: unknown,
  truth: string,
];

const YES_NO: readonly Row[] = [
  ['allergy.latex', yesNo(true), 'equal', true, 'true'],
  ['allergy.latex', yesNo(true), 'equal', false, 'false'],
  ['allergy.latex', yesNo(false), 'notEqual', true, 'true'],
  ['allergy.latex', yesNo(true), 'notEqual', true, 'false'],
  ['allergy.latex', undefined, 'equal', true, 'unknown'],
  ['allergy.latex', undefined, 'notEqual', true, 'unknown'],
];

const NUMBERS: readonly Row[] = [
  ['urine.scan', exactly(400), 'equal', 400, 'true'],
  ['urine.scan', exactly(401), 'equal', 400, 'false'],
  ['urine.scan', between(300, 400), 'equal', 400, 'unknown'],
  ['urine.scan', between(300, 399), 'equal', 400, 'false'],
  ['urine.scan', exactly(400), 'notEqual', 400, 'false'],
  ['urine.scan', between(300, 400), 'notEqual', 400, 'unknown'],
  ['urine.scan', between(401, 500), 'notEqual', 400, 'true'],
  ['urine.scan', exactly(400), 'lessThan', 400, 'false'],
  ['urine.scan', between(300, 399), 'lessThan', 400, 'true'],
  ['urine.scan', between(300, 400), 'lessThan', 400, 'unknown'],
  ['urine.scan', between(300, 400), 'lessThanInclusive', 400, 'true'],
  ['urine.scan', between(400, 500), 'lessThanInclusive', 400, 'unknown'],
  ['urine.scan', between(401, 500), 'lessThanInclusive', 400, 'false'],
  ['urine.scan', between(401, 500), 'greaterThan', 400, 'true'],
  ['urine.scan', between(400, 500), 'greaterThan', 400, 'unknown'],
  ['urine.scan', between(300, 400), 'greaterThan', 400, 'false'],
  ['urine.scan', between(400, 500), 'greaterThanInclusive', 400, 'true'],
  ['urine.scan', between(399, 500), 'greaterThanInclusive', 400, 'unknown'],
  ['urine.scan', between(300, 399), 'greaterThanInclusive', 400, 'false'],
  ['urine.scan', between(999, Infinity), 'greaterThan', 400, 'true'],
  ['urine.scan', between(-Infinity, 100), 'lessThan', 400, 'true'],
  ['urine.scan', between(-Infinity, Infinity), 'equal', 400, 'unknown'],
  ['urine.scan', undefined, 'greaterThanInclusive', 0, 'true'],
  ['urine.scan', undefined, 'greaterThan', 400, 'unknown'],
  ['urine.scan', null, 'notEqual', 400, 'unknown'],
];

const CODE: readonly Row[] = [
  ['catheter.material', oneOf('latex'), 'equal', 'latex', 'true'],
  ['catheter.material', oneOf('latex', 'pvc'), 'equal', 'latex', 'unknown'],
  ['catheter.material', oneOf('silicone', 'pvc'), 'equal', 'latex', 'false'],
  ['catheter.material', oneOf('silicone', 'pvc'), 'notEqual', 'latex', 'true'],
  ['catheter.material', oneOf('latex'), 'notEqual', 'latex', 'false'],
  ['catheter.material', oneOf('silicone', 'pvc'), 'in', ['pvc', 'silicone'], 'true'],
  ['catheter.material', oneOf('silicone', 'latex'), 'in', ['pvc', 'silicone'], 'unknown'],
  ['catheter.material', oneOf('latex'), 'in', ['pvc', 'silicone'], 'false'],
  ['catheter.material', oneOf('latex'), 'in', [], 'false'],
  ['catheter.material', undefined, 'in', ['pvc', 'silicone', 'latex'], 'true'],
  ['catheter.material', oneOf('latex'), 'notIn', ['pvc', 'silicone'], 'true'],
  ['catheter.material', oneOf('latex', 'pvc'), 'notIn', ['pvc', 'silicone'], 'unknown'],
  ['catheter.material', oneOf('pvc'), 'notIn', ['pvc', 'silicone'], 'false'],
  ['catheter.material', undefined, 'notEqual', 'latex', 'unknown'],
];

const signs = answers({ rigors: TRUE, dysuria: FALSE, 'flank-pain': UNKNOWN });
const ANSWERED: readonly Row[] = [
  ['infection.signs', signs, 'contains', 'rigors', 'true'],
  ['infection.signs', signs, 'contains', 'dysuria', 'false'],
  ['infection.signs', signs, 'contains', 'flank-pain', 'unknown'],
  ['infection.signs', signs, 'doesNotContain', 'rigors', 'false'],
  ['infection.signs', signs, 'doesNotContain', 'dysuria', 'true'],
  ['infection.signs', signs, 'doesNotContain', 'flank-pain', 'unknown'],
  ['infection.signs', signs, 'containsAny', ['dysuria', 'rigors'], 'true'],
  ['infection.signs', signs, 'containsAny', ['dysuria', 'flank-pain'], 'unknown'],
  ['infection.signs', signs, 'containsAny', ['dysuria'], 'false'],
  ['infection.signs', signs, 'containsAny', [], 'false'],
  ['infection.signs', undefined, 'containsAny', ['dysuria'], 'unknown'],
];

const DATES: readonly Row[] = [
  ['pack.use-by', exactly(DAY(day)), 'lessThan', day, 'false'],
  ['pack.use-by', exactly(DAY(day)), 'lessThanInclusive', day, 'true'],
  ['pack.use-by', exactly(DAY('2026-11-24')), 'before', day, 'true'],
  ['pack.use-by', exactly(DAY(day)), 'before', day, 'false'],
  ['pack.use-by', exactly(DAY('2026-11-26')), 'after', day, 'true'],
  ['pack.use-by', exactly(DAY(day)), 'after', day, 'false'],
  ['pack.use-by', between(DAY('2026-11-24'), DAY('2026-11-30')), 'after', day, 'unknown'],
  ['pack.use-by', undefined, 'before', day, 'unknown'],
  ['catheter.inserted-at', exactly(AT(noon)), 'greaterThanInclusive', noon, 'true'],
  ['catheter.inserted-at', exactly(AT(noon)), 'after', noon, 'false'],
  ['catheter.inserted-at', exactly(AT(noon)), 'before', '2026-11-25T13:00:00+00:30', 'true'],
  [
    'catheter.inserted-at',
    between(AT(`${day}T00:00:00Z`), AT(noon)),
    'greaterThan',
    `${day}T06:00:00Z`,
    'unknown',
  ],
  ['catheter.inserted-at', between(AT(`${day}T00:00:00Z`), AT(noon)), 'lessThanInclusive', noon, 'true'],
];

const KNOWN: Readonly<Record<string, Bounds>> = {
  boolean: yesNo(true),
  number: exactly(400),
  code: oneOf('latex'),
  codes: signs,
  date: exactly(DAY(day)),
  'date-time': exactly(AT(noon)),
  text: { kind: 'text', text: 'somebody' },
};

const RECORDED: readonly Row[] = FACTS.flatMap(({ id, type }): readonly Row[] => {
  const some = KNOWN[type];
  return [
    [id, some, 'recorded', undefined, 'true'],
    [id, null, 'recorded', undefined, 'false'],
    [id, undefined, 'recorded', undefined, 'unknown'],
    [id, some, 'notRecorded', undefined, 'false'],
    [id, null, 'notRecorded', undefined, 'true'],
    [id, undefined, 'notRecorded', undefined, 'unknown'],
  ];
});

const ROWS = [...YES_NO, ...NUMBERS, ...CODE, ...ANSWERED, ...DATES, ...RECORDED];
const shown = (known: Bounds | null | undefined) =>
  known === undefined ? 'not supplied' : known === null ? 'nothing recorded' : show(known);
const show = (bounds: Bounds) =>
  bounds.kind === 'answers'
    ? JSON.stringify([...bounds.answers])
    : JSON.stringify(Object.values(bounds).slice(1));
const inverted: Readonly<Record<string, string>> = { true: 'false', false: 'true', unknown: 'unknown' };

describe('one leaf on the second engine', () => {
  test.each(
    ROWS.map(
      (row) =>
        [`${row[0]} ${shown(row[1])} ${row[2]} ${JSON.stringify(row[3]) ?? ''}: ${row[4]}`, row] as const,
    ),
  )('%s', async (_title, [id, known, operator, value, truth]) => {
    const given: ReadonlyMap<string, Reading> = readings(known === undefined ? {} : { [id]: known });
    const condition = leaf(id, operator, value);
    expect(await secondTruth(condition, given)).toBe(truth);
    expect(await secondTruth({ not: condition }, given)).toBe(inverted[truth]);
    expect(await secondTruth({ not: { not: condition } }, given)).toBe(truth);
  });

  test('every operator of the rule language stands in the table', () => {
    expect(new Set(ROWS.map((row) => row[2]))).toEqual(new Set(OPERATORS));
  });

  test('a stale value counts as recorded although its bounds are open', async () => {
    const scan = readings({}).get('urine.scan')!;
    const stale = new Map([['urine.scan', { ...scan, recorded: TRUE, cause: 'stale' } as Reading]]);
    expect(await secondTruth(leaf('urine.scan', 'recorded'), stale)).toBe('true');
    expect(await secondTruth(leaf('urine.scan', 'greaterThan', 400), stale)).toBe('unknown');
  });
});

describe('a question that has no meaning for the type of the fact', () => {
  const asked: readonly (readonly [string, string, unknown])[] = [
    ['allergy.latex', 'lessThan', true],
    ['allergy.latex', 'equal', 'true'],
    ['urine.scan', 'in', [400]],
    ['urine.scan', 'equal', '400'],
    ['urine.scan', 'equal', Number.NaN],
    ['urine.scan', 'before', 400],
    ['catheter.material', 'contains', 'latex'],
    ['catheter.material', 'in', 'latex'],
    ['catheter.material', 'equal', ['latex']],
    ['infection.signs', 'equal', 'rigors'],
    ['infection.signs', 'containsAny', 'rigors'],
    ['infection.signs', 'contains', 'never-listed'],
    ['infection.signs', 'containsAny', ['rigors', 'never-listed']],
    ['catheter.material', 'equal', 'never-listed'],
    ['pack.use-by', 'equal', day],
    ['pack.use-by', 'before', noon],
    ['pack.use-by', 'before', '2026-02-30'],
    ['catheter.inserted-at', 'before', day],
    ['catheter.inserted-at', 'before', '2026-11-25T12:00:00'],
    ['record.inserter', 'equal', 'somebody'],
    ['urine.scan', 'recorded', true],
  ];
  test.each(asked)('%s %s %j is refused at translation', (id, operator, value) => {
    expect(() => translateOnly(leaf(id, operator, value))).toThrow('cannot be computed a second time');
  });
});
