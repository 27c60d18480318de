import { getPublicKey, hashes, sign, verify } from '@noble/ed25519';
import { sha512 } from '@noble/hashes/sha2.js';
import { bytesToHex, hexToBytes } from '@noble/hashes/utils.js';

/** The library leaves the choice of a hash to its caller; Ed25519 knows only this one. */
const ready = (): void => {
  hashes.sha512 ??= sha512;
};

/** 32 bytes, in lower-case hex. Throws for a seed that has not 32 bytes. */
export function publicKeyOf(seed: Uint8Array): string {
  ready();
  return bytesToHex(getPublicKey(seed));
}

/** RFC 8032: 64 bytes, in lower-case hex. The same message and seed give the same signature. */
export function signatureOf(message: Uint8Array, seed: Uint8Array): string {
  ready();
  return bytesToHex(sign(message, seed));
}

/** As RFC 8032 reads it, so that no two encodings stand for one signature. What is no hex of its length is false. */
export function isSignature(signature: string, message: Uint8Array, publicKey: string): boolean {
  ready();
  // Capitals would be a second way to write the same bytes.
  if (!/^[0-9a-f]{128}$/.test(signature)) return false;
  try {
    return verify(hexToBytes(signature), message, hexToBytes(publicKey), { zip215: false });
  } catch {
    return false;
  }
}
