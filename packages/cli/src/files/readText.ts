import { readFileSync, statSync } from 'node:fs';
import { CannotRun } from '../cannotRun.ts';

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'no such file',
  ENOTDIR: 'no such file',
  EISDIR: 'is a folder, not a file',
  EACCES: 'may not be read',
  EPERM: 'may not be read',
};

export const whyNot = (error: unknown): string =>
  REASONS[(error as NodeJS.ErrnoException).code ?? ''] ?? 'cannot be read';

/** The text of a file; what is not UTF-8 is refused, because replaced characters could change a value. */
export function readText(path: string, shown = path): string {
  let bytes: Buffer;
  try {
    if (statSync(path).isDirectory()) throw Object.assign(new Error(), { code: 'EISDIR' });
    bytes = readFileSync(path);
  } catch (error) {
    throw new CannotRun(`${shown}: ${whyNot(error)}`);
  }
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new CannotRun(`${shown}: is not UTF-8 text`);
  }
}
