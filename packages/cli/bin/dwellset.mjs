#!/usr/bin/env node
// The command is built from TypeScript; before that, or after half a build, there is nothing to run.
try {
  const { main } = await import('../dist/index.mjs');
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  if (error.code !== 'ERR_MODULE_NOT_FOUND') throw error;
  process.stderr.write('dwellset: not built yet; run `npm run build` in the repository first\n');
  process.exitCode = 1;
}
