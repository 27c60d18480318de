import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';
import { partOf, RULES, shortened } from './parts.ts';

const FOLDER = fileURLToPath(new URL('../../policies', import.meta.url));
const SKIPPED = /^(releases|dist|node_modules)\/|^package\.json$/;

/** Every document of the policies folder, part of the page's data → path → text. */
function documents(): Map<string, Record<string, string>> {
  const entries = readdirSync(FOLDER, { recursive: true, withFileTypes: true });
  const paths = entries
    .filter((entry) => entry.isFile() && entry.name.endsWith('.json'))
    .map((entry) => relative(FOLDER, join(entry.parentPath, entry.name)).replaceAll('\\', '/'))
    .filter((path) => !SKIPPED.test(path))
    .sort();
  const parts = new Map<string, Record<string, string>>([[RULES, {}]]);
  for (const path of paths) {
    const name = partOf(path);
    const part = parts.get(name) ?? {};
    part[path] = shortened(path, readFileSync(join(FOLDER, path), 'utf8'));
    parts.set(name, part);
  }
  return parts;
}

/**
 * Puts the documents beside the page as data files, one for each part that is needed at another time;
 * `virtual:policies` names them by part, relative to the page.
 */
export function policies(): Plugin {
  const id = 'virtual:policies';
  let files: Readonly<Record<string, string>> = {};
  const texts = new Map<string, string>();
  return {
    name: 'policies',
    buildStart() {
      const isServed = this.meta.watchMode || this.environment?.mode === 'dev';
      const named = [...documents()].map(([part, all]) => {
        const text = JSON.stringify(all);
        const sha = createHash('sha256').update(text).digest('hex').slice(0, 8);
        const name = isServed ? `policies/${part}.json` : `policies/${part}-${sha}.json`;
        texts.set(name, text);
        return [part, name] as const;
      });
      files = Object.fromEntries(named);
    },
    resolveId: (source) => (source === id ? `\0${id}` : undefined),
    load: (source) => (source === `\0${id}` ? `export default ${JSON.stringify(files)};` : undefined),
    generateBundle() {
      for (const [fileName, source] of texts) this.emitFile({ type: 'asset', fileName, source });
    },
    configureServer(server) {
      server.middlewares.use('/policies/', (request, response, next) => {
        const part = /^\/([a-z-]+)\.json/.exec(request.url ?? '')?.[1];
        const all = part === undefined ? undefined : documents().get(part);
        if (!all) return next();
        response.setHeader('content-type', 'application/json');
        response.end(JSON.stringify(all));
      });
    },
  };
}
