import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';

const WORKER = fileURLToPath(new URL('./serviceWorker.js', import.meta.url));
/** Of the large editor: kept once somebody has opened it. */
const LATER = /^assets\/(editor|Editor|json|codicon)/;
const sha = (text: string | Buffer): string => createHash('sha256').update(text).digest('hex');

/** Writes the service worker beside the built page, with the digest of every file that it may keep. */
export function offline(): Plugin {
  return {
    name: 'offline',
    apply: 'build',
    writeBundle({ dir }) {
      if (dir === undefined) return;
      const files = readdirSync(dir, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile() && entry.name !== 'sw.js')
        .map((entry) => relative(dir, join(entry.parentPath, entry.name)).replaceAll('\\', '/'))
        .sort()
        .map((file) => [file, { digest: sha(readFileSync(join(dir, file))), later: LATER.test(file) }]);
      const list = JSON.stringify(Object.fromEntries(files));
      const text = readFileSync(WORKER, 'utf8');
      const build = sha(list + text).slice(0, 16);
      writeFileSync(join(dir, 'sw.js'), `const BUILD = '${build}';\nconst FILES = ${list};\n${text}`);
    },
  };
}
