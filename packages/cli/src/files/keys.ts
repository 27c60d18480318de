import { createPrivateKey, createPublicKey, type KeyObject } from 'node:crypto';
import { CannotRun } from '../cannotRun.ts';
import { readText } from './readText.ts';

/** What stands in a key is never repeated in a message. */
function ed25519(key: () => KeyObject, path: string, what: string): KeyObject {
  let read: KeyObject;
  try {
    read = key();
  } catch {
    throw new CannotRun(`${path}: is no ${what} in PEM without a passphrase`);
  }
  if (read.asymmetricKeyType === 'ed25519') return read;
  throw new CannotRun(`${path}: is no Ed25519 key`);
}

const bytesOf = (key: KeyObject, part: 'd' | 'x'): Buffer =>
  Buffer.from(key.export({ format: 'jwk' })[part] ?? '', 'base64url');

/** The 32 bytes of an Ed25519 private key in a PEM file. */
export function readSeed(path: string): Uint8Array {
  const text = readText(path);
  return bytesOf(
    ed25519(() => createPrivateKey(text), path, 'private key'),
    'd',
  );
}

/** A public key as 64 hex digits: written out, or in a PEM file. */
export function publicKeyGiven(given: string): string {
  if (/^[0-9a-f]{64}$/i.test(given)) return given.toLowerCase();
  const text = readText(given);
  if (text.includes('PRIVATE KEY'))
    throw new CannotRun(`${given}: is a private key; trust names a public one`);
  return bytesOf(
    ed25519(() => createPublicKey(text), given, 'public key'),
    'x',
  ).toString('hex');
}
