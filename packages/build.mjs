// Builds the packages in the order in which they import each other, then the policies as data.
import { build } from 'tsdown';

const ORDER = ['core', 'wording', 'authoring', 'crosscheck', 'cli'];
/**
 * Entries beside the package's own: a file that opens releases, for those who sign; whole sets over many cases, and
 * columns that threads share; the analysis, which a page loads only where somebody asks for it; the command's threads.
 */
const ENTRIES = {
  core: { index: 'src/index.ts', 'release-file': 'src/release-file.ts', many: 'src/many.ts' },
  authoring: { index: 'src/index.ts', analysis: 'src/analysis.ts' },
  cli: { index: 'src/index.ts', worker: 'src/stream/worker.ts' },
};
const folder = (name) => new URL(`./${name}/`, import.meta.url).pathname;

for (const name of ORDER) {
  await build({
    cwd: folder(name),
    entry: ENTRIES[name] ?? { index: 'src/index.ts' },
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
    // File by file, so that a page carries only what it calls: in one file what a module sets up at its top stays.
    unbundle: name === 'core' || name === 'authoring',
    deps: { skipNodeModulesBundle: true },
  });
}

await import('../policies/build.mjs');
