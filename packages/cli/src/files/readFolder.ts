import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { CannotRun } from '../cannotRun.ts';
import { readText, whyNot } from './readText.ts';

const PASSED_OVER: ReadonlySet<string> = new Set(['node_modules', 'dist']);

function jsonFiles(folder: string, below: string): string[] {
  return readdirSync(join(folder, below), { withFileTypes: true }).flatMap((entry) => {
    const path = below === '' ? entry.name : `${below}/${entry.name}`;
    if (entry.name.startsWith('.') || PASSED_OVER.has(entry.name)) return [];
    if (entry.isDirectory()) return jsonFiles(folder, path);
    return entry.isFile() && entry.name.endsWith('.json') ? [path] : [];
  });
}

/** Every JSON document below a folder: path relative to it, with `/`, in the same order everywhere → text. */
export function readFolder(folder: string, shown = folder): Map<string, string> {
  let paths: string[];
  try {
    paths = jsonFiles(folder, '');
  } catch (error) {
    throw new CannotRun(`${shown}: ${whyNot(error).replace('file', 'folder')}`);
  }
  paths.sort((a, b) => (a < b ? -1 : 1));
  return new Map(paths.map((path) => [path, readText(join(folder, path), `${shown}/${path}`)]));
}
