// Builds the packages in the order in which they import each other, then the policies as data.
import { build } from 'tsdown';

const ORDER = ['core', 'wording', 'authoring', 'crosscheck', 'cli'];
/** What is opened before anything runs, apart: whoever signs nothing does not load it. */
const ENTRIES = { core: ['src/index.ts', 'src/release-file.ts'] };
const folder = (name) => new URL(`./${name}/`, import.meta.url).pathname;

for (const name of ORDER) {
  await build({
    cwd: folder(name),
    entry: ENTRIES[name] ?? ['src/index.ts'],
    format: 'esm',
    fixedExtension: true,
    platform: name === 'cli' ? 'node' : 'neutral',
    dts: true,
    clean: true,
    logLevel: 'warn',
    // How long each plugin took is of no use to whoever builds.
    inputOptions: { checks: { pluginTimings: false } },
    config: false,
    tsconfig: new URL('../tsconfig.json', import.meta.url).pathname,
    deps: { skipNodeModulesBundle: true },
  });
}

await import('../policies/build.mjs');
