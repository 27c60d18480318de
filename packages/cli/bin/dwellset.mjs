#!/usr/bin/env node
import { existsSync } from 'node:fs';

const entry = new URL('../dist/index.mjs', import.meta.url);
if (existsSync(entry)) {
  const { main } = await import(entry.href);
  process.exitCode = await main(process.argv.slice(2));
} else {
  process.stderr.write('dwellset: not built yet; run `npm run build` in the repository first\n');
  process.exitCode = 1;
}
