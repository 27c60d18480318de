/// <reference types="node" />
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '../..');
const MOST_LINES = 10;

const snippet = /^```ts\n([\s\S]*?)^```$/m.exec(readFileSync(join(ROOT, 'README.md'), 'utf8'))?.[1] ?? '';

/** An empty folder into which the packages are installed as anybody would get them. */
describe('packages as they are published', () => {
  let folder = '';
  const within = (command: string, ...words: string[]): string =>
    execFileSync(command, words, { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'packed-'));
    for (const name of ['packages/core', 'policies']) {
      execFileSync('npm', ['pack', '--silent', '--pack-destination', folder], { cwd: join(ROOT, name) });
    }
    const tarballs = readdirSync(folder).map((name) => `./${name}`);
    writeFileSync(join(folder, 'package.json'), JSON.stringify({ private: true, type: 'module' }));
    within('npm', 'install', '--silent', '--no-audit', '--no-fund', '--prefer-offline', ...tarballs);
    writeFileSync(join(folder, 'main.ts'), snippet);
  }, 180_000);

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  /** What the compiler prints about one file; nothing where it compiles. */
  const compile = (file: string): string => {
    const compilerOptions = {
      strict: true,
      module: 'nodenext',
      target: 'es2022',
      types: [],
      lib: ['es2023', 'dom'],
    };
    writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify({ compilerOptions, files: [file] }));
    try {
      return within(process.execPath, join(ROOT, 'node_modules/typescript/bin/tsc'), '-p', '.');
    } catch (error) {
      return String((error as { stdout: string }).stdout);
    }
  };

  it('takes at most ten lines from installation to an assessment, and they compile and run', () => {
    const lines = snippet.split('\n').filter((line) => line.trim() !== '');
    expect(lines.length).toBeLessThanOrEqual(MOST_LINES);
    expect(compile('main.ts')).toBe('');
    const asked = within(process.execPath, 'main.js').trim().split('\n');
    expect(asked[0]).toMatch(/\?$/);
    expect(asked.join('\n')).toMatch(/age|old/i);
  });

  it('refuses a misspelt fact, code or unit at compile time', () => {
    const mistakes = [
      ["'catheter.stage'", "'catheter.stge'"],
      ["'removed'", "'remvoed'"],
      ["'catheter.stage': 'removed'", "'urine.scan': { value: 1.2, unit: 'L' }"],
    ];
    for (const [right = '', wrong = ''] of mistakes) {
      const spoilt = snippet.replace(right, wrong);
      expect(spoilt).not.toBe(snippet);
      writeFileSync(join(folder, 'wrong.ts'), spoilt);
      expect(compile('wrong.ts'), wrong).toMatch(/^wrong\.ts.*error TS2/);
    }
  });

  it('ships no tests, no sources and no machine of ours', () => {
    const shipped = readdirSync(join(folder, 'node_modules/@dwellset/core'), { recursive: true }).map(String);
    expect(shipped.filter((name) => /test|^src/.test(name))).toEqual([]);
  });
});
