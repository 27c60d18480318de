import fc from 'fast-check';
import { expect, test } from 'vitest';
import { plainJson } from '../../packages/authoring/src/parse/plainJson.ts';
import { parseSource } from '../../packages/authoring/src/parse/source.ts';

/** Takes a text as it is or refuses it; what is wrong with a refused one is said elsewhere. */
const agrees = (text: string): void => {
  const full = parseSource('x.json', text);
  const plain = plainJson(text);
  expect(plain === undefined).toBe(full.problems.length > 0);
  if (plain !== undefined) expect(plain).toEqual(full.value);
};

test('the quick reading takes what the thorough one takes, and gives the same value', () => {
  fc.assert(fc.property(fc.json({ maxDepth: 6 }), agrees), { numRuns: 300 });
});

test('the quick reading refuses what the thorough one refuses in a text that was tampered with', () => {
  const piece = fc.constantFrom(
    '"a":1,',
    ',',
    ':',
    '"',
    '\\',
    '{',
    '}',
    '"__proto__":0,',
    '"a":{"a":2},',
    '\n',
    '"b\\":":3,',
  );
  const text = fc.json({ maxDepth: 3 }).map((json) => `{"a":${json},"b\\":":3,"c":{"a":1}}`);
  fc.assert(
    fc.property(text, piece, fc.nat(), (json, inserted, at) => {
      const place = at % (json.length + 1);
      agrees(json.slice(0, place) + inserted + json.slice(place));
    }),
    { numRuns: 1000 },
  );
});

test('equal keys, keys of prototypes and too deep nesting are left to the thorough reading', () => {
  for (const text of [
    '{"a":1,"a":1}',
    '{"a":{"__proto__":1}}',
    '{"\\u0061":1,"a":2}',
    `${'['.repeat(65)}${']'.repeat(65)}`,
  ]) {
    expect(plainJson(text)).toBeUndefined();
    agrees(text);
  }
  agrees(`${'['.repeat(64)}${']'.repeat(64)}`);
});
