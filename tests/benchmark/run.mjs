// Puts the benchmark into one file, so that Node runs it against the built packages, and starts it.
import { spawnSync } from 'node:child_process';
import { rolldown } from 'rolldown';

const at = (path) => new URL(path, import.meta.url).pathname;
const bundle = await rolldown({
  input: at('main.ts'),
  platform: 'node',
  external: (id) => !id.startsWith('.') && !id.startsWith('/'),
});
// Two levels below the root, as the tests are that find the policies from where they lie.
const file = at('../dist/benchmark.mjs');
await bundle.write({ file, format: 'esm' });
const flags = [
  '--expose-gc',
  '--max-old-space-size=4096',
  // Garbage is collected before every lap; what a lap ran is not to be forgotten with it.
  '--no-flush-bytecode',
  ...(process.env.NODE_FLAGS ?? '').split(' ').filter(Boolean),
];
const { status } = spawnSync(process.execPath, [...flags, file, ...process.argv.slice(2)], {
  stdio: 'inherit',
});
process.exitCode = status ?? 1;
