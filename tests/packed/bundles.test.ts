/// <reference types="node" />
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { gzipSync } from 'node:zlib';
import { rolldown } from 'rolldown';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '../..');
const KB = 1000;

interface Bundle {
  readonly code: string;
  /** What the bundle still imports when it runs. */
  readonly imports: readonly string[];
  /** Bytes, minified and gzipped. */
  readonly size: number;
}

/** One file for a browser, made of the packages as they are built, from what a page imports. */
async function bundle(source: string): Promise<Bundle> {
  const entry = join(ROOT, 'page.js');
  const page = {
    name: 'page',
    resolveId: (id: string) => (id === entry ? entry : null),
    load: (id: string) => (id === entry ? source : null),
  };
  const made = await rolldown({ input: entry, cwd: ROOT, platform: 'browser', plugins: [page] });
  const { output } = await made.generate({ format: 'esm', minify: true, codeSplitting: false });
  await made.close();
  const { code, imports, dynamicImports } = output[0];
  return {
    code,
    imports: [...imports, ...dynamicImports],
    size: gzipSync(code, { level: 9 }).length,
  };
}

/** What only the date library asks of the language. */
const DATE_LIBRARY = /Intl\.DateTimeFormat/;
const JUDGE = "export { assess, compile } from '@dwellset/core';";
const EVERYTHING = "export * from '@dwellset/core';";
/** What the page and the workers of the test bench import of authoring, all of it together. */
function takenByTheBench(): string[] {
  const folder = join(ROOT, 'playground/src');
  const sources = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
    /\.tsx?$/.test(name),
  );
  const names = sources.flatMap((name) =>
    [
      ...readFileSync(join(folder, name), 'utf8').matchAll(/import \{([^}]*)\} from '@dwellset\/authoring'/g),
    ].flatMap(([, list = '']) => list.split(',').map((one) => one.trim())),
  );
  return [...new Set(names)].filter((name) => name !== '' && !name.startsWith('type ')).sort();
}

describe('what a page has to load', () => {
  let folder = '';
  let judge: Bundle;
  let everything: Bundle;

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'bundles-'));
    [judge, everything] = await Promise.all([bundle(JUDGE), bundle(EVERYTHING)]);
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('compiles and assesses in at most 40 kB, date library included', () => {
    expect(judge.size).toBeLessThanOrEqual(40 * KB);
    expect(DATE_LIBRARY.test(judge.code)).toBe(true);
  });

  it('takes at most 53 kB for all of the core: the options of all stock lists at once, many cases, forecast and SQL included', () => {
    expect(everything.size).toBeLessThanOrEqual(53 * KB);
  });

  it('checks, builds and proves amended rules and tries a ward in at most 80 kB more', async () => {
    const taken = takenByTheBench();
    expect(taken).toEqual(expect.arrayContaining(['buildRelease', 'check', 'simulateWard']));
    const authoring = await bundle(
      `${EVERYTHING} export { ${taken.join(', ')} } from '@dwellset/authoring';`,
    );
    expect(authoring.imports).toEqual([]);
    expect(authoring.size - everything.size).toBeLessThanOrEqual(80 * KB);
  });

  it('analyses rules, where somebody asks for it, in at most 28 kB beside the core', async () => {
    const analysis = await bundle(`${EVERYTHING} export { analyseSet } from '@dwellset/authoring/analysis';`);
    expect(analysis.imports).toEqual([]);
    expect(analysis.size - everything.size).toBeLessThanOrEqual(28 * KB);
    expect(/["'`]node:|\brequire\(/.exec(analysis.code)?.[0]).toBeUndefined();
  });

  it('carries nothing that is not called', async () => {
    expect((await bundle("export { and, not, or } from '@dwellset/core';")).size).toBeLessThan(0.5 * KB);
    const digest = await bundle("export { digest } from '@dwellset/core';");
    expect(digest.size).toBeLessThan(6 * KB);
    expect(DATE_LIBRARY.test(digest.code)).toBe(false);
  });

  it('needs nothing but the language: no module of Node, nothing loaded later', () => {
    expect(everything.imports).toEqual([]);
    const reached = /["'`]node:|\brequire\(|\bprocess\.|\bglobalThis\.fetch|\bdocument\.|import\(/.exec(
      everything.code,
    );
    expect(reached?.[0]).toBeUndefined();
  });

  it('assesses where making code from strings is forbidden', () => {
    writeFileSync(join(folder, 'judge.mjs'), judge.code);
    const run = `
      import { assess, compile } from './judge.mjs';
      const { indication, removal } = await import(process.argv[2]);
      let forbidden = false;
      try { new Function('return 1'); } catch { forbidden = true; }
      const plan = compile([indication, removal], { allow: ['draft'] });
      const patient = { asOf: '2026-03-02T10:00:00Z', timeZone: 'Europe/London', facts: { 'catheter.stage': 'removed' } };
      process.stdout.write(JSON.stringify({ forbidden, asks: assess(plan, patient).ask.length > 0 }));`;
    writeFileSync(join(folder, 'run.mjs'), run);
    const policies = pathToFileURL(join(ROOT, 'policies/dist/index.mjs')).href;
    const words = ['--disallow-code-generation-from-strings', 'run.mjs', policies];
    const printed = execFileSync(process.execPath, words, { cwd: folder, encoding: 'utf8' });
    expect(JSON.parse(printed)).toEqual({ forbidden: true, asks: true });
  });
});
