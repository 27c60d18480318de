/// <reference types="node" />
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '../..');
const DOCUMENTS = ['README.md', 'DEVELOPERS.md', 'policies/README.md'];
const SETUP = ['npm ci && npm run demo', 'npm ci && npm test'];

interface Block {
  readonly language: string;
  readonly path: string | undefined;
  readonly text: string;
}

const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');

function blocksOf(markdown: string): Block[] {
  const found = markdown.matchAll(/^```(\w+)(?: (\S+))?\n([\s\S]*?)^```$/gm);
  return [...found].map(([, language = '', path, text = '']) => ({ language, path, text }));
}

const prose = (markdown: string): string => markdown.replace(/^```[\s\S]*?^```$/gm, '');

/** Runs one command line of a document as a reader would, from the top of the project. */
function run(line: string): string {
  const [program = '', ...words] = line.split(/\s+/);
  return execFileSync(program, words, {
    cwd: ROOT,
    encoding: 'utf8',
    env: { ...process.env, COLUMNS: '80' },
  });
}

describe.each(DOCUMENTS)('%s', (document) => {
  const markdown = read(document);
  const blocks = blocksOf(markdown);

  it('links to what exists', () => {
    const links = [...prose(markdown).matchAll(/\]\(([^)\s]+)\)/g)].map(([, target = '']) => target);
    const local = links.filter((target) => !/^[a-z]+:/.test(target));
    const missing = local.filter(
      (target) => !existsSync(join(ROOT, dirname(document), target.split('#')[0] ?? '')),
    );
    expect(missing).toEqual([]);
  });

  it('names paths that exist', () => {
    const words = [...prose(markdown).matchAll(/`([^`\s]+)`/g)].map(([, word = '']) => word);
    const paths = words.filter((word) => /^[\w.@-]+\/[\w./-]*$/.test(word) && !word.startsWith('@'));
    const missing = paths.filter(
      (path) => !existsSync(join(ROOT, path)) && !existsSync(join(ROOT, dirname(document), path)),
    );
    expect(missing).toEqual([]);
    expect(paths.length).toBeGreaterThan(0);
  });

  it('shows files as they are', () => {
    for (const { path, text } of blocks) if (path !== undefined) expect(text, path).toBe(read(path));
  });

  it('gives commands that run, and prints what they print', () => {
    blocks.forEach(({ language, text }, index) => {
      if (language !== 'sh') return;
      const lines = text
        .trim()
        .split('\n')
        .filter((line) => !SETUP.includes(line));
      const printed = lines.map(run);
      const next = blocks[index + 1];
      if (next?.language === 'text' && lines.length === 1) expect(next.text).toBe(printed[0]);
    });
  });

  it('has no code block that nothing checks', () => {
    const checked = ['json', 'sh', 'text', 'ts'];
    for (const { language, path } of blocks) {
      expect(checked).toContain(language);
      if (language === 'json') expect(path).toBeDefined();
    }
  });
});

describe('set-up', () => {
  const markdown = read('README.md');

  it('is two commands, whose scripts exist', () => {
    const given = blocksOf(markdown)
      .filter(({ language }) => language === 'sh')
      .map(({ text }) => text.trim());
    expect(given.slice(0, 2)).toEqual(SETUP);
    const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };
    expect(Object.keys(scripts)).toEqual(expect.arrayContaining(['demo', 'test']));
  });

  it('is what continuous integration runs', () => {
    expect(read('.ci/run')).toContain(SETUP[1]);
  });

  it('says first what the job is', () => {
    const [, opening = ''] = markdown.split('\n\n');
    expect(opening).toMatch(/urinary catheter/);
    expect(opening.length).toBeGreaterThan(300);
  });
});
