import { createHash } from 'node:crypto';
import { canonicalJson, compile, digest, digestOf, type Release } from '@dwellset/core';
import canonicalize from 'canonicalize';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const hex = (text: string): string => Buffer.from(text, 'utf8').toString('hex');

const release: Release = {
  $schema: 'urn:dwellset:release:1',
  id: 'removal',
  version: '0.1.0',
  status: 'draft',
  language: 'en',
  title: 'Removal',
  intendedUse: 'Support to registered practitioners',
  users: 'Ward nurses',
  exclusions: [],
  limits: [],
  shape: 'advice',
  conditions: {},
  facts: [],
  codes: {},
  parameters: [],
  tables: [],
  stock: {},
  rules: [],
  evidence: [],
  sources: [],
  hazards: [],
};

describe('canonical JSON (RFC 8785)', () => {
  it('writes the sample of section 3.2.2 as the bytes of section 3.2.4', () => {
    const sample = JSON.parse(String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`);
    expect(hex(canonicalJson(sample))).toBe(
      '7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e756d62657273223a5b3333333333333333' +
        '332e333333333333332c31652b33302c342e352c302e3030322c31652d32375d2c22737472696e67223a22e282ac245c75' +
        '303030665c6e4127425c225c5c5c5c5c222f227d',
    );
  });

  it('sorts keys by UTF-16 code unit, as in section 3.2.3', () => {
    const sample = JSON.parse(String.raw`{
      "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
      "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control", "\u00f6": "Latin Small Letter O With Diaeresis"
    }`);
    const order = [...canonicalJson(sample).matchAll(/:"([^"]+)"/g)].map((match) => match[1]);
    expect(order).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });

  it.each([
    ['8000000000000000', '0'],
    ['4340000000000001', '9007199254740994'],
    ['4340000000000002', '9007199254740996'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
  ])('writes the IEEE 754 number %s as %s', (bits, text) => {
    expect(canonicalJson(Buffer.from(bits, 'hex').readDoubleBE())).toBe(text);
  });

  it('refuses what JSON cannot hold', () => {
    expect(() => canonicalJson(Number.NaN)).toThrow();
    expect(() => canonicalJson({ high: Number.POSITIVE_INFINITY })).toThrow();
    expect(() => canonicalJson(undefined)).toThrow(TypeError);
    expect(() => canonicalJson('\ud800')).toThrow();
  });
});

describe('the digest of a release', () => {
  it('is the same whatever the order of keys', () => {
    const backwards = Object.fromEntries(Object.entries(release).reverse()) as unknown as Release;
    expect(digest(backwards)).toBe(digest(release));
    expect(digest(release)).toMatch(/^[0-9a-f]{64}$/);
  });

  it('is the SHA-256 that OpenSSL takes of the canonical text, whatever its length and its letters', () => {
    const letters = 'aé€\u{1f600}\n';
    const texts = Array.from(
      { length: 260 },
      (_, length) => `${[...letters].slice(length % 5).join('')}${'b'.repeat(length)}`,
    );
    for (const text of [...texts, letters.repeat(60_000)]) {
      const wanted = createHash('sha256').update(canonicalJson(text), 'utf8').digest('hex');
      expect(digestOf(text)).toBe(wanted);
    }
  });

  it('changes with one letter', () => {
    expect(digest({ ...release, title: 'Removal.' })).not.toBe(digest(release));
  });
});

/** Keys that an object puts in an order of its own, and texts that not every writer writes. */
const awkward = fc.constantFrom(
  '10',
  '9',
  '012',
  '-1',
  '1a',
  '',
  '__proto__',
  'é',
  '\u{1f600}',
  '\ufb33',
  '\\ud800',
);
const values = fc.letrec((tie) => ({
  value: fc.oneof(
    { maxDepth: 4 },
    fc.constantFrom(-0, 1e21, 5e-324, null, true, '\ud800', '\\ud800', '\u2028'),
    fc.double({ noNaN: true, noDefaultInfinity: true }),
    fc.string({ unit: 'binary' }),
    fc.array(tie('value'), { maxLength: 4 }),
    fc.dictionary(fc.oneof(awkward, fc.string({ maxLength: 3 })), tie('value'), { maxKeys: 5 }),
  ),
})).value;

/** As a library for that standard writes it; nothing where it refuses. */
function byTheLibrary(value: unknown): string | undefined {
  try {
    return canonicalize(value);
  } catch {
    return undefined;
  }
}

describe('whatever JSON is given', () => {
  it('its canonical text is what a library for the standard writes, or both refuse it', () => {
    fc.assert(
      fc.property(values, (value) => {
        const wanted = byTheLibrary(value);
        if (wanted === undefined) expect(() => canonicalJson(value)).toThrow();
        else expect(canonicalJson(value)).toBe(wanted);
      }),
      { numRuns: 1500 },
    );
  });

  it('a plan holds what its digest was taken of, and nothing that was given', () => {
    fc.assert(
      fc.property(values, (note) => {
        const given = { ...release, note } as Release;
        if (byTheLibrary(note) === undefined) return;
        const [set] = compile([given], { allow: ['draft'] }).sets;
        expect(set!.digest).toBe(digestOf(given));
        expect(JSON.stringify(set!.release)).toBe(JSON.stringify(JSON.parse(canonicalJson(given))));
        expect((set!.release as unknown as { note: unknown }).note === note && Object(note) === note).toBe(
          false,
        );
      }),
      { numRuns: 200 },
    );
  });
});
