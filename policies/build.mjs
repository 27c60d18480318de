// Turns the documents into data that a program can import: one release a rule set, and the types of the facts.
import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildRelease, check, generateFactTypes, readLibrary } from '@dwellset/authoring';

const root = fileURLToPath(new URL('.', import.meta.url));
const entries = await readdir(root, { recursive: true, withFileTypes: true });
const paths = entries
  .filter((entry) => entry.isFile() && entry.name.endsWith('.json'))
  .map((entry) => relative(root, join(entry.parentPath, entry.name)))
  .filter(
    (path) => path !== 'package.json' && !path.startsWith('dist/') && !path.startsWith('node_modules/'),
  );
const files = new Map();
for (const path of paths.sort()) files.set(path, await readFile(join(root, path), 'utf8'));

const library = readLibrary(files);
const errors = check(library).filter(({ severity }) => severity === 'error');
if (errors.length > 0) {
  const [first] = errors;
  throw new Error(
    `${errors.length} errors in the policies, first ${first.path}:${first.range.line}: ${first.message}`,
  );
}

const sets = [...library.sets.keys()].sort();
const constant = (id) => id.replace(/-(.)/g, (_, letter) => letter.toUpperCase());
const releases = sets.map((id) => ({ id, built: buildRelease(library, id, {}) }));
const lines = releases.map(({ id, built }) => {
  if (!built.release) throw new Error(`${id} cannot be built: ${built.refused?.[0]?.message}`);
  return `export const ${constant(id)} = ${JSON.stringify(built.release)};`;
});
const declarations = [
  "import type { Release } from '@dwellset/core';",
  ...releases.map(({ id }) => `export declare const ${constant(id)}: Release;`),
  generateFactTypes(library),
];

await mkdir(join(root, 'dist'), { recursive: true });
await writeFile(join(root, 'dist/index.mjs'), `${lines.join('\n')}\n`);
await writeFile(join(root, 'dist/index.d.mts'), `${declarations.join('\n')}\n`);
