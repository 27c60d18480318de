import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';

const FOLDER = fileURLToPath(new URL('../../policies', import.meta.url));
const SKIPPED = /^(releases|dist|node_modules)\/|^package\.json$/;

/** Every document of the policies folder, path → text. */
function documents(): Record<string, string> {
  const entries = readdirSync(FOLDER, { recursive: true, withFileTypes: true });
  const paths = entries
    .filter((entry) => entry.isFile() && entry.name.endsWith('.json'))
    .map((entry) => relative(FOLDER, join(entry.parentPath, entry.name)))
    .filter((path) => !SKIPPED.test(path))
    .sort();
  return Object.fromEntries(paths.map((path) => [path, readFileSync(join(FOLDER, path), 'utf8')]));
}

/** Puts the documents beside the page as one data file; `virtual:policies` is its name relative to the page. */
export function policies(): Plugin {
  const id = 'virtual:policies';
  let name = 'policies.json';
  let text = '';
  return {
    name: 'policies',
    buildStart() {
      text = JSON.stringify(documents());
      const sha = createHash('sha256').update(text).digest('hex').slice(0, 8);
      name = `policies-${sha}.json`;
      if (this.meta.watchMode || this.environment?.mode === 'dev') name = 'policies.json';
    },
    resolveId: (source) => (source === id ? `\0${id}` : undefined),
    load: (source) => (source === `\0${id}` ? `export default ${JSON.stringify(name)};` : undefined),
    generateBundle() {
      this.emitFile({ type: 'asset', fileName: name, source: text });
    },
    configureServer(server) {
      server.middlewares.use('/policies.json', (_request, response) => {
        response.setHeader('content-type', 'application/json');
        response.end(JSON.stringify(documents()));
      });
    },
  };
}
