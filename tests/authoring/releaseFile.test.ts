import { createPublicKey, generateKeyPairSync, sign, verify } from 'node:crypto';
import {
  buildRelease,
  type ReleaseFile,
  readLibrary,
  readReleaseFile,
  releaseText,
} from '@dwellset/authoring';
import { canonicalJson, digest } from '@dwellset/core';
import { openReleaseFile, signedText } from '@dwellset/core/release-file';
import { describe, expect, test } from 'vitest';
import { isSignature, publicKeyOf, signatureOf } from '../../packages/core/src/release/signature.ts';
import { small, yes } from './invented/small.ts';

const library = small({ rule: { when: yes('care.pain') }, vignettes: [{ 'care.pain': true }] });
const release = buildRelease(library, 'care').release!;
const parts = {
  results: [{ gate: 'check', outcome: 'accepted', findings: ['a: 1'], reason: 'small' }],
  vignettes: Object.fromEntries(
    [...library.sets.get('care')!.vignettes].map(([id, { value }]) => [id, value]),
  ),
  changes: '- First.',
  comparison: {
    set: 'care',
    items: [],
    outcomes: [],
    ran: { vignettes: 1, wardDays: 0, probes: 0, answers: 1 },
    differing: { vignettes: 0, wardDays: 0 },
    bump: 'none',
    reasons: [],
  },
} as const;
const text = releaseText(release, parts);

const { privateKey, publicKey } = generateKeyPairSync('ed25519');
const seed = Buffer.from(privateKey.export({ format: 'jwk' }).d!, 'base64url');
const key = Buffer.from(publicKey.export({ format: 'jwk' }).x!, 'base64url').toString('hex');
const signed = signedText(text, seed);

/** Offsets at which a file is still taken for what was released though one bit of that byte is another. */
function unnoticed(of: string, bit: (at: number) => number, [from, to] = [0, of.length]): number[] {
  const bytes = new TextEncoder().encode(of);
  expect(bytes).toHaveLength(of.length);
  const found: number[] = [];
  for (let at = from; at < to; at++) {
    const flipped = bytes.slice();
    flipped[at]! ^= 1 << bit(at);
    if (openReleaseFile(flipped).refused === undefined) found.push(at);
  }
  return found;
}

describe('a release file', () => {
  test('gives back what it holds; the same documents give the same bytes', () => {
    const { file } = readReleaseFile(text) as { file: ReleaseFile };
    expect(file.release).toEqual(release);
    expect(file.results).toEqual(parts.results);
    expect(file.vignettes).toEqual(parts.vignettes);
    expect(file.digest).toBe(digest(release));
    const again = buildRelease(
      readLibrary(new Map(library.documents.map((d) => [d.path, d.source.text]))),
      'care',
    );
    expect(releaseText(again.release!, parts)).toBe(text);
  });

  test('is refused with any byte of it flipped, the results and the comparison included', () => {
    for (const part of ['"results":', '"comparison":', '"vignettes":', '"changes":']) {
      expect(text).toContain(part);
    }
    expect(unnoticed(text, (at) => at % 8)).toEqual([]);
  });

  test('is refused with any byte of its signed form flipped, and any bit of the signature', () => {
    expect(openReleaseFile(signed)).toMatchObject({ signedBy: key });
    expect(unnoticed(signed, (at) => (at * 3 + 5) % 8)).toEqual([]);
    const at = signed.indexOf('"signature":');
    const end = signed.indexOf('}', at);
    for (let bit = 0; bit < 8; bit++) expect(unnoticed(signed, () => bit, [at, end])).toEqual([]);
  });

  test('is refused shorter, longer, with a mark of byte order, or with its keys in another order', () => {
    const bytes = new TextEncoder().encode(text);
    for (const other of [
      text.slice(0, -1),
      `${text}\n`,
      text.replace('\n', '\r\n'),
      `\uFEFF${text}`,
      JSON.stringify(JSON.parse(text), null, 1),
    ]) {
      expect(openReleaseFile(new TextEncoder().encode(other)).refused, other.slice(0, 30)).toBeDefined();
    }
    expect(openReleaseFile(bytes).refused).toBeUndefined();
  });

  test('whose seal was made anew over other results keeps no signature', () => {
    const { signature } = JSON.parse(signed) as ReleaseFile;
    const forged = JSON.parse(releaseText(release, { ...parts, results: [] })) as object;
    expect(openReleaseFile(`${canonicalJson(forged)}\n`).refused).toBeUndefined();
    expect(openReleaseFile(`${canonicalJson({ ...forged, signature })}\n`)).toEqual({ refused: 'changed' });
  });

  test('never throws for what is no release file', () => {
    for (const other of ['', 'null', '[]', '{}', '{"$schema":"urn:dwellset:release-file:1"}', '\ud800']) {
      expect(openReleaseFile(other).refused).toBe('no-release-file');
    }
    const file = JSON.parse(text) as object;
    for (const signature of [null, 1, 'x', [], {}, { algorithm: 'Ed25519', publicKey: 1, value: 2 }]) {
      expect(openReleaseFile(`${canonicalJson({ ...file, signature })}\n`)).toEqual({ refused: 'changed' });
    }
  });
});

describe('a trusted key', () => {
  test('is asked for where one is named: no signature, and that of another key, do not do', () => {
    const other = publicKeyOf(Buffer.alloc(32, 7));
    expect(openReleaseFile(text, { trust: [key] })).toEqual({ refused: 'not-signed' });
    expect(openReleaseFile(signed, { trust: [other] })).toEqual({ refused: 'other-key' });
    expect(openReleaseFile(signed, { trust: [] })).toEqual({ refused: 'other-key' });
    expect(openReleaseFile(signed, { trust: [other, key] }).refused).toBeUndefined();
  });

  test('signs only what is sealed, and the same bytes each time', () => {
    expect(signedText(text, seed)).toBe(signed);
    expect(signedText(signed, seed)).toBe(signed);
    expect(() => signedText(text.replace('- First.', '- Last.'), seed)).toThrow(TypeError);
    expect(() => signedText(text, seed.subarray(1))).toThrow();
  });
});

describe('Ed25519', () => {
  const bytes = (hex: string) => Uint8Array.from(Buffer.from(hex, 'hex'));

  test('gives the key and signature of RFC 8032, 7.1, test 3', () => {
    const secret = bytes('c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7');
    const publicHex = 'fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025';
    const signature =
      '6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a';
    expect(publicKeyOf(secret)).toBe(publicHex);
    expect(signatureOf(bytes('af82'), secret)).toBe(signature);
    expect(isSignature(signature, bytes('af82'), publicHex)).toBe(true);
    expect(isSignature(signature, bytes('af83'), publicHex)).toBe(false);
    expect(isSignature(signature.toUpperCase(), bytes('af82'), publicHex)).toBe(false);
  });

  test('agrees with that of Node in both directions over the very message of a file', () => {
    const file = JSON.parse(signed) as ReleaseFile;
    const { value, ...unsigned } = file.signature!;
    const message = Buffer.from(canonicalJson({ ...file, signature: unsigned }));
    const spki = createPublicKey({
      key: { kty: 'OKP', crv: 'Ed25519', x: Buffer.from(key, 'hex').toString('base64url') },
      format: 'jwk',
    });
    expect(verify(null, message, spki, Buffer.from(value, 'hex'))).toBe(true);
    expect(verify(null, Buffer.concat([message, Buffer.from(' ')]), spki, Buffer.from(value, 'hex'))).toBe(
      false,
    );
    expect(sign(null, message, privateKey).toString('hex')).toBe(value);
  });
});
