import { createHash } from 'sha256-uint8array';
import type { Release } from './release.ts';

// Part of the Encoding Standard, which browsers, Node and their kin all have; the core's types know neither of them.
declare const TextEncoder: new () => { encode(text: string): Uint8Array };

/** RFC 8785 JSON: one text for one value, whatever the order of its keys. Throws for what is not JSON. */
export const canonicalJson = (value: unknown): string => plainText(inOrder(value)) ?? written(value);

/** Stands for what the runtime's own writer writes otherwise, or what is not JSON. */
const ODD = Symbol('odd');

/**
 * A copy with the keys of every object in the order of RFC 8785, which the runtime's own writer then keeps: to write
 * each part takes four times as long. `ODD` where that writer would write something else.
 */
function inOrder(value: unknown): unknown {
  if (typeof value === 'string' || typeof value === 'boolean' || value === null) return value;
  // There is one zero in JSON.
  if (typeof value === 'number') return Number.isFinite(value) ? value + 0 : ODD;
  if (typeof value !== 'object' || 'toJSON' in value) return ODD;
  if (Array.isArray(value)) {
    const copy: unknown[] = value.slice();
    for (let at = 0; at < copy.length; at += 1) {
      copy[at] = inOrder(copy[at]);
      if (copy[at] === ODD) return ODD;
    }
    return copy;
  }
  const copy: Record<string, unknown> = {};
  const keys = sorted(Object.keys(value));
  let plain = true;
  for (const key of keys) {
    const own = inOrder((value as Json)[key]);
    if (own === ODD) return ODD;
    copy[key] = own;
    // Whole numbers among the keys of an object come first, in the order of numbers; and one key sets its prototype.
    plain &&= key > ':' && key !== '__proto__';
  }
  if (plain) return copy;
  const order = Object.keys(copy);
  return keys.every((key, at) => key === order[at]) ? copy : ODD;
}

/** Most objects have their keys in order, and few have many: the runtime's own sort takes as long as all the rest. */
function sorted(keys: string[]): string[] {
  if (keys.length > MANY) return keys.sort();
  for (let end = 1; end < keys.length; end += 1) {
    const key = keys[end]!;
    let at = end;
    for (; at > 0 && keys[at - 1]! > key; at -= 1) keys[at] = keys[at - 1]!;
    keys[at] = key;
  }
  return keys;
}

const MANY = 32;

/** Nothing where half a character stands in it, or may. */
function plainText(copy: unknown): string | undefined {
  const text = copy === ODD ? undefined : JSON.stringify(copy);
  return text === undefined || /\\ud[89a-f]/.test(text) ? undefined : text;
}

/** Part by part. What has no value is left out of an object, as the runtime does. */
function written(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(written).join()}]`;
  if (typeof value === 'object' && value !== null && !('toJSON' in value)) {
    const keys = Object.keys(value).sort();
    const own = keys.filter((key) => (value as Json)[key] !== undefined);
    return `{${own.map((key) => `${written(key)}:${written((value as Json)[key])}`).join()}}`;
  }
  const isOdd = typeof value === 'number' ? !Number.isFinite(value) : Object(value) === value;
  const text = isOdd ? undefined : JSON.stringify(value);
  if (text === undefined || /\p{Surrogate}/u.test(String(value))) throw new TypeError('not a JSON value');
  return text;
}

/** SHA-256 of a text in UTF-8, in lower-case hex. */
function sha(text: string): string {
  last = createHash();
  return last.update(new TextEncoder().encode(text)).digest('hex');
}

/** One that stays: once none is left a runtime forgets how it compiled them, and hashes slowly until it has again. */
let last: ReturnType<typeof createHash>;

/** SHA-256 of the canonical JSON of a value, in lower-case hex. Throws for what is not JSON. */
export const digestOf = (value: unknown): string => sha(canonicalJson(value));

/** SHA-256 of the canonical JSON, in lower-case hex. */
export const digest = (release: Release): string => digestOf(release);

/** A release that nobody else holds, as the canonical JSON of the one given reads, and the digest of that text. */
export function ownCopy(given: Release): { readonly release: Release; readonly digest: string } {
  const copy = inOrder(given);
  const plain = plainText(copy);
  const text = plain ?? canonicalJson(given);
  return { release: (plain === undefined ? JSON.parse(text) : copy) as Release, digest: sha(text) };
}

/** Whether two values of JSON are the same, in whatever order their keys stand; some keys of both may be passed over. */
export function sameJson(a: unknown, b: unknown, but: ReadonlySet<string> = NONE): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  return (
    Array.isArray(a) === Array.isArray(b) &&
    Object.keys(a).every((key) => but.has(key) || sameJson((a as Json)[key], (b as Json)[key])) &&
    Object.keys(b).every((key) => but.has(key) || Object.hasOwn(a, key))
  );
}

type Json = Readonly<Record<string, unknown>>;
const NONE: ReadonlySet<string> = new Set();
