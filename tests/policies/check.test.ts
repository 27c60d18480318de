import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { check } from '../../packages/authoring/src/check/check.ts';
import { readLibrary } from '../../packages/authoring/src/library.ts';

const folder = join(dirname(fileURLToPath(import.meta.url)), '../../policies');

function readPolicies(): ReadonlyMap<string, string> {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' });
  return new Map(
    names
      .filter((name) => name.endsWith('.json') && !name.startsWith('node_modules'))
      .map((name) => [name.replaceAll('\\', '/'), readFileSync(join(folder, name), 'utf8')] as const),
  );
}

test('the shipped policies have no mistake that the check can find', () => {
  const library = readLibrary(readPolicies());
  expect(library.documents.length).toBeGreaterThan(100);
  const found = check(library).map(
    ({ severity, code, path, range, message }) =>
      `${severity} ${code} ${path}:${range.line}:${range.column} ${message}`,
  );
  expect(found.filter((line) => line.startsWith('error'))).toEqual([]);
});
