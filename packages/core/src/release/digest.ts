import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import canonicalize from 'canonicalize';
import type { Release } from './release.ts';

/** RFC 8785 JSON: one text for one value, whatever the order of its keys. Throws for what is not JSON. */
export function canonicalJson(value: unknown): string {
  const text = canonicalize(value);
  if (text === undefined) throw new TypeError('not a JSON value');
  return text;
}

/** SHA-256 of the canonical JSON of a value, in lower-case hex. Throws for what is not JSON. */
export const digestOf = (value: unknown): string => bytesToHex(sha256(utf8ToBytes(canonicalJson(value))));

/** SHA-256 of the canonical JSON, in lower-case hex. */
export const digest = (release: Release): string => digestOf(release);
