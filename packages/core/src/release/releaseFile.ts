import { utf8ToBytes } from '@noble/hashes/utils.js';
import { canonicalJson, digest, digestOf } from './digest.ts';
import type { Release } from './release.ts';
import { isSignature, publicKeyOf, signatureOf } from './signature.ts';

// Part of the Encoding Standard, which browsers, Node and their kin all have; the core's types know neither of them.
declare const TextDecoder: new (
  label: string,
  options: { readonly fatal: boolean; readonly ignoreBOM: boolean },
) => { decode(bytes: Uint8Array): string };

/** Ed25519 (RFC 8032) over everything in the file but `value` itself. */
export interface ReleaseSignature {
  readonly algorithm: 'Ed25519';
  /** 32 bytes in lower-case hex. */
  readonly publicKey: string;
  /** 64 bytes in lower-case hex. */
  readonly value: string;
}

/**
 * A release as it is kept, with whatever was laid down beside it. Its text is canonical JSON (RFC 8785) and one line
 * end, so that a byte more or less is another text.
 */
export interface ReleaseFile {
  readonly $schema: 'urn:dwellset:release-file:1';
  /** SHA-256 of the canonical release: what an adoption names. */
  readonly digest: string;
  readonly release: Release;
  /** SHA-256 of the canonical file without `seal` and `signature`. */
  readonly seal: string;
  readonly signature?: ReleaseSignature;
}

export type ReleaseFileRefusal =
  /** No text of this kind at all. */
  | 'no-release-file'
  /** Not the bytes that were sealed or signed. */
  | 'changed'
  /** A signature is asked for and there is none. */
  | 'not-signed'
  /** Signed, and by none of the keys that are trusted. */
  | 'other-key';

export type OpenedReleaseFile<File extends ReleaseFile = ReleaseFile> =
  | { readonly file: File; readonly signedBy?: string; readonly refused?: undefined }
  | { readonly refused: ReleaseFileRefusal };

const textOf = (file: ReleaseFile): string => `${canonicalJson(file)}\n`;

/** Digest and seal put in: the same release and parts give the same bytes. */
export function sealedText<Parts extends object>(release: Release, parts: Parts): string {
  const file = {
    ...parts,
    $schema: 'urn:dwellset:release-file:1',
    digest: digest(release),
    release,
  } as const;
  return textOf({ ...file, seal: digestOf(file) });
}

/** Signs a sealed text. `seed` is the private key: 32 bytes. Throws for another length, and for a text that is not sealed. */
export function signedText(text: string, seed: Uint8Array): string {
  const opened = openReleaseFile(text);
  if (opened.refused) throw new TypeError(`not a release file that could be signed: ${opened.refused}`);
  const { signature: _, ...file } = opened.file;
  const unsigned = { algorithm: 'Ed25519', publicKey: publicKeyOf(seed) } as const;
  return textOf({ ...file, signature: { ...unsigned, value: signatureOf(message(file, unsigned), seed) } });
}

/**
 * The release in a file, or why it may not be used. A signature that is there must be true; with `trust` (public
 * keys, 32 bytes in hex) one of those must have made it. Never throws for what it is given to read.
 */
export function openReleaseFile<File extends ReleaseFile = ReleaseFile>(
  given: string | Uint8Array,
  { trust }: { readonly trust?: readonly string[] } = {},
): OpenedReleaseFile<File> {
  const text = typeof given === 'string' ? given : decoded(given);
  const file = text === undefined ? undefined : parsed(text);
  if (file === undefined) return { refused: 'no-release-file' };
  const { seal, signature, ...sealed } = file;
  const sound =
    canonicalOrNothing(file) === text &&
    seal === digestOf(sealed) &&
    sealed.digest === digest(sealed.release);
  if (!sound) return { refused: 'changed' };
  if (signature === undefined) {
    return trust === undefined ? { file: file as File } : { refused: 'not-signed' };
  }
  if (typeof signature !== 'object' || signature === null) return { refused: 'changed' };
  const { value, ...unsigned } = signature;
  if (unsigned.algorithm !== 'Ed25519') return { refused: 'changed' };
  const { signature: __, ...rest } = file;
  if (!isSignature(value, message(rest, unsigned), unsigned.publicKey)) return { refused: 'changed' };
  const { publicKey } = unsigned;
  if (trust !== undefined && !trust.some((key) => key.toLowerCase() === publicKey)) {
    return { refused: 'other-key' };
  }
  return { file: file as File, signedBy: publicKey };
}

const message = (file: object, signature: Omit<ReleaseSignature, 'value'>): Uint8Array =>
  utf8ToBytes(canonicalJson({ ...file, signature }));

/** UTF-8 without a byte order mark; anything else is not what was written. */
function decoded(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

function parsed(text: string): ReleaseFile | undefined {
  try {
    const value = JSON.parse(text) as ReleaseFile | null;
    const known = value?.$schema === 'urn:dwellset:release-file:1' && typeof value.release === 'object';
    return known && value.release !== null ? value : undefined;
  } catch {
    return undefined;
  }
}

/** A lone surrogate has no canonical form. */
function canonicalOrNothing(file: ReleaseFile): string | undefined {
  try {
    return textOf(file);
  } catch {
    return undefined;
  }
}
