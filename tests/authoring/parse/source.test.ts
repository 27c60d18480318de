import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseSource } from '../../../packages/authoring/src/parse/source.ts';

const codes = (text: string) => parseSource('a.json', text).problems.map((problem) => problem.code);

describe('reading a document', () => {
  test('keeps the value and finds every value, head and key by its pointer', () => {
    const source = parseSource('a.json', '{\n  "a": [1, { "b/c": "x" }],\n  "d~": true\n}');
    expect(source.problems).toEqual([]);
    expect(source.value).toEqual({ a: [1, { 'b/c': 'x' }], 'd~': true });
    expect(source.locate('/a/1/b~1c')).toEqual({ line: 2, column: 21, endLine: 2, endColumn: 24 });
    expect(source.locate('/a/1/b~1c', 'key')).toEqual({ line: 2, column: 14, endLine: 2, endColumn: 19 });
    expect(source.locate('/a')).toEqual({ line: 2, column: 8, endLine: 2, endColumn: 27 });
    expect(source.locate('/a', 'head')).toEqual({ line: 2, column: 8, endLine: 2, endColumn: 9 });
    expect(source.locate('/d~0')).toEqual({ line: 3, column: 9, endLine: 3, endColumn: 13 });
  });

  test('points at the nearest ancestor of something that is not there', () => {
    const source = parseSource('a.json', '{ "a": { "b": 1 } }');
    expect(source.locate('/a/zz/y', 'head')).toEqual(source.locate('/a', 'head'));
  });

  test('counts lines at every kind of line ending and columns in UTF-16 units', () => {
    const source = parseSource('a.json', '{ "m": "µ\u{1F600}", "n": 1,\r\n"o": 2,\r"p": 3,\n"q": 4 }');
    expect(source.locate('/n')).toMatchObject({ line: 1, column: 20 });
    expect(source.locate('/o', 'key')).toMatchObject({ line: 2, column: 1 });
    expect(source.locate('/p', 'key')).toMatchObject({ line: 3, column: 1 });
    expect(source.locate('/q', 'key')).toMatchObject({ line: 4, column: 1 });
  });

  test.each([
    ['a trailing comma', '{ "a": 1, }', 1, 11],
    ['a comment', '{ // no\n"a": 1 }', 1, 3],
    ['a missing comma', '{ "a": 1\n"b": 2 }', 2, 1],
    ['single quotes', "{ 'a': 1 }", 1, 3],
    ['an open text', '{ "a": "x', 1, 8],
    ['a raw tab in a text', '{ "a": "x\ty" }', 1, 8],
    ['a number with a leading nought', '{ "a": 01 }', 1, 9],
    ['words after the end', '{} x', 1, 4],
    ['nothing at all', '', 1, 1],
    ['a byte order mark', '\uFEFF{}', 1, 1],
  ])('reports %s once, where it stands', (_, text, line, column) => {
    const { problems, value } = parseSource('a.json', text);
    expect(problems.map((p) => [p.code, p.range.line, p.range.column])).toEqual([
      ['broken-json', line, column],
    ]);
    expect(value).toBeUndefined();
  });

  test('refuses keys that reach into a prototype, and keys that stand twice', () => {
    expect(codes('{ "__proto__": { "x": 1 } }')).toEqual(['forbidden-key']);
    expect(codes('{ "a": [{ "constructor": 1 }], "prototype": 2 }')).toEqual([
      'forbidden-key',
      'forbidden-key',
    ]);
    expect(codes('{ "\\u005f_proto__": 1 }')).toEqual(['forbidden-key']);
    const twice = parseSource('a.json', '{\n "a": 1,\n "\\u0061": 2 }');
    expect(twice.problems).toMatchObject([
      { code: 'duplicate-key', pointer: '/a', range: { line: 3, column: 2 } },
    ]);
    expect(twice.value).toBeUndefined();
  });

  test('refuses documents that are too large or too deep before it reads them', () => {
    expect(codes(`"${'x'.repeat(1024 * 1024)}"`)).toEqual(['too-large']);
    expect(codes(`"${'x'.repeat(1024 * 1024 - 2)}"`)).toEqual([]);
    expect(codes(`"${'≥'.repeat(400_000)}"`)).toEqual(['too-large']);
    expect(codes(`"${'≥'.repeat(340_000)}"`)).toEqual([]);
    expect(codes('['.repeat(64) + ']'.repeat(64))).toEqual([]);
    const deep = parseSource('a.json', '['.repeat(65) + ']'.repeat(65));
    expect(deep.problems).toMatchObject([{ code: 'too-deep', range: { line: 1, column: 65 } }]);
    expect(codes('['.repeat(500_000))).toEqual(['too-deep']);
    expect(codes('{"a":'.repeat(100_000))).toEqual(['too-deep']);
  });

  test('accepts exactly the texts that strict JSON accepts, with the same value', () => {
    const nearJson = fc
      .tuple(
        fc.json(),
        fc.nat(),
        fc.constantFrom('', ',', '"', ' ', '0', '\u00a0', '\\', '}', '/**/', '\u0001', '-', 'e'),
      )
      .map(
        ([text, at, insert]) =>
          text.slice(0, at % (text.length + 1)) + insert + text.slice(at % (text.length + 1)),
      );
    fc.assert(
      fc.property(fc.oneof(fc.json({ maxDepth: 4 }), nearJson, fc.string()), (text) => {
        const source = parseSource('a.json', text);
        let expected: { value: unknown } | undefined;
        try {
          expected = { value: JSON.parse(text) };
        } catch {
          expected = undefined;
        }
        if (expected === undefined) expect(source.problems.map((p) => p.code)).toEqual(['broken-json']);
        else if (source.problems.length === 0) expect(source.value).toEqual(expected.value);
        else
          for (const problem of source.problems) expect(problem.code).toMatch(/forbidden-key|duplicate-key/);
      }),
      { numRuns: 2000 },
    );
  });

  test('gives back what was printed, and every position leads to its own value', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 4 }), fc.constantFrom(0, 1, 2), (value, indent) => {
        const text = JSON.stringify(value, null, indent);
        const source = parseSource('a.json', text);
        if (source.problems.length > 0) return;
        expect(JSON.stringify(source.value, null, indent)).toBe(text);
        const lines = text.split('\n');
        const range = source.locate('');
        expect(range).toEqual({
          line: 1,
          column: 1,
          endLine: lines.length,
          endColumn: lines.at(-1)!.length + 1,
        });
      }),
      { numRuns: 500 },
    );
  });
});
