import { existsSync, realpathSync, statSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { CannotRun } from '../cannotRun.ts';
import { policiesFolder } from './policies.ts';

/** Which policies a path belongs to, and which of their documents it names. */
export interface Within {
  /** The policies folder, where it is not the shipped or the stated one. */
  readonly policies?: string;
  /** Whether a document, by its path in the policies folder, is meant. */
  readonly holds: (path: string) => boolean;
}

/**
 * A path is a policies folder, or a folder or file inside one, or simply the name of one of its rule sets. Without
 * a path everything is meant.
 */
export function within(path: string | undefined, stated: string | undefined): Within {
  if (path === undefined) return { holds: () => true };
  const candidates = [resolve(path), join(policiesFolder(stated), path)];
  const found = candidates.find((candidate) => existsSync(candidate));
  if (found === undefined) throw new CannotRun(`${path}: no such file or folder`);
  const real = realpathSync(found);
  if (statSync(real).isDirectory() && existsSync(join(real, 'facts'))) {
    return { policies: real, holds: () => true };
  }
  const folder = policiesFolder(stated);
  const inner = relative(folder, real);
  if (inner.startsWith('..') || inner === '')
    throw new CannotRun(`${path}: lies outside the policies folder`);
  const prefix = inner.split(sep).join('/');
  return { holds: (document) => document === prefix || document.startsWith(`${prefix}/`) };
}
