import fc from 'fast-check';
import { expect, test } from 'vitest';
import { checkCase } from '../../../packages/authoring/src/check/caseReader.ts';
import { CODES } from '../../../packages/authoring/src/check/codes.ts';
import { documentKinds, urnOf } from '../../../packages/authoring/src/documents/kinds.ts';
import { readLibrary } from '../../../packages/authoring/src/library.ts';
import { base } from './base.ts';
import { checkFiles } from './provoke.ts';

const paths = [...base.keys()];
const WORDS = [
  'id',
  'facts',
  'when',
  'all',
  'not',
  'fact',
  'operator',
  'value',
  'parameter',
  'from',
  'ratio',
  'rows',
];
const keys = fc.oneof(
  fc.constantFrom(...WORDS, 'toString', 'hasOwnProperty', '__proto__', 'constructor'),
  fc.string(),
);
const anything = fc.letrec<{ value: unknown }>((tie) => ({
  value: fc.oneof(
    { depthSize: 'small' },
    fc.constantFrom(null, true, 0, -1, 1e308, '', 'allergy.latex', 'equal', 'latex', '{{x}}', '2026-02-30'),
    fc.string(),
    fc.double(),
    fc.array(tie('value'), { maxLength: 4 }),
    fc.dictionary(keys, tie('value'), { maxKeys: 5 }),
  ),
})).value;

const untouched = Object.getOwnPropertyNames(Object.prototype);

function checkWith(path: string, text: string): void {
  const found = checkFiles(new Map([...base, [path, text]]));
  for (const { code, range, message } of found) {
    expect(Object.keys(CODES)).toContain(code);
    expect(range.line).toBeGreaterThanOrEqual(1);
    expect(range.column).toBeGreaterThanOrEqual(1);
    expect(message).not.toBe('');
  }
  expect(Object.getOwnPropertyNames(Object.prototype)).toEqual(untouched);
  expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
}

test('takes any JSON for any document without throwing or touching Object.prototype', () => {
  const documents = fc
    .tuple(anything, fc.option(fc.constantFrom(...documentKinds)))
    .map(([value, kind]) =>
      kind !== null && typeof value === 'object' && value !== null && !Array.isArray(value)
        ? { $schema: urnOf(kind), ...value }
        : value,
    );
  fc.assert(
    fc.property(fc.constantFrom(...paths), documents, (path, value) =>
      checkWith(path, JSON.stringify(value)),
    ),
    { numRuns: 150, verbose: true },
  );
}, 120_000);

/** A place in a value, picked by a list of numbers, replaced. */
function withReplaced(value: unknown, [pick = 0, ...deeper]: readonly number[], by: unknown): unknown {
  if (typeof value !== 'object' || value === null) return by;
  const names = Object.keys(value);
  const name = names[pick % (names.length + 1)];
  if (name === undefined || deeper.length === 0) return by;
  const inner = withReplaced((value as Readonly<Record<string, unknown>>)[name], deeper, by);
  return Array.isArray(value) ? value.with(Number(name), inner) : { ...value, [name]: inner };
}

test('takes a good document with any part replaced by any JSON', () => {
  const picks = fc.array(fc.nat({ max: 40 }), { minLength: 2, maxLength: 8 });
  fc.assert(
    fc.property(fc.constantFrom(...paths), picks, anything, (path, pick, by) =>
      checkWith(path, JSON.stringify(withReplaced(JSON.parse(base.get(path)!), pick, by))),
    ),
    { numRuns: 250, verbose: true },
  );
}, 120_000);

test('takes any text for any document, and a good document with a piece cut out', () => {
  const cut = fc.tuple(fc.constantFrom(...paths), fc.nat(), fc.nat({ max: 60 })).map(([path, at, length]) => {
    const text = base.get(path)!;
    const start = at % text.length;
    return [path, text.slice(0, start) + text.slice(start + length)] as const;
  });
  fc.assert(
    fc.property(fc.oneof(fc.tuple(fc.constantFrom(...paths), fc.string()), cut), ([path, text]) =>
      checkWith(path, text),
    ),
    { numRuns: 150, verbose: true },
  );
}, 120_000);

test('takes any text and any JSON for a case', () => {
  const library = readLibrary(base);
  const texts = fc.oneof(
    fc.string(),
    anything.map((value) => JSON.stringify(value)),
    anything.map((facts) => JSON.stringify({ facts })),
  );
  fc.assert(
    fc.property(texts, (text) => {
      for (const { code } of checkCase(library, 'any.case.json', text))
        expect(Object.keys(CODES)).toContain(code);
    }),
    { numRuns: 150, verbose: true },
  );
}, 120_000);
