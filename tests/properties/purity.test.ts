/// <reference types="node" />
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { assess, compile } from '@dwellset/core';
import ts from 'typescript';
import { afterEach, expect, test, vi } from 'vitest';
import { generateCase } from '../reference/generate/cases.ts';
import { random } from '../reference/generate/random.ts';
import { generateReleases } from '../reference/generate/releases.ts';

afterEach(() => vi.unstubAllGlobals());

function forbidden(name: string): () => never {
  return () => {
    throw new Error(`the core reached for ${name}`);
  };
}

/** A `Date` that still parses and formats, but does not tell the time. */
class DateWithoutClock extends Date {
  constructor(...given: unknown[]) {
    if (given.length === 0) forbidden('new Date()')();
    super(...(given as [number]));
  }
  static override now = forbidden('Date.now');
}

test('the core runs without a clock, chance, network or process', () => {
  const draw = random(77);
  const work = Array.from({ length: 30 }, () => generateReleases(draw)).map((generated) => ({
    ...generated,
    cases: Array.from({ length: 5 }, () => generateCase(draw, generated)),
  }));
  const run = () =>
    work.map(({ releases, cases }) => {
      const plan = compile(releases, { allow: ['draft'] });
      return cases.map((patient) => JSON.stringify(assess(plan, patient, { reasons: 'all' })));
    });
  const expected = run();
  const { process: kept, performance: clock } = globalThis;
  const noMath = Object.defineProperty(Object.create(Math) as Math, 'random', {
    value: forbidden('Math.random'),
  });
  let found: string[][];
  try {
    vi.stubGlobal('fetch', forbidden('fetch'));
    vi.stubGlobal('Date', DateWithoutClock);
    vi.stubGlobal('Math', noMath);
    vi.stubGlobal('performance', new Proxy(clock, { get: forbidden('performance') }));
    vi.stubGlobal('process', new Proxy(kept, { get: forbidden('process') }));
    found = run();
  } finally {
    vi.unstubAllGlobals();
  }
  expect(found).toEqual(expected);
});

test('the core type-checks where neither a browser nor Node exists', () => {
  const root = fileURLToPath(new URL('../../packages/core/src/', import.meta.url));
  const files = readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'))
    .map((name) => root + name);
  const program = ts.createProgram(files, {
    noEmit: true,
    lib: ['lib.es2022.d.ts'],
    types: [],
    target: ts.ScriptTarget.ES2022,
    module: ts.ModuleKind.NodeNext,
    moduleResolution: ts.ModuleResolutionKind.NodeNext,
    allowImportingTsExtensions: true,
    verbatimModuleSyntax: true,
    strict: true,
    exactOptionalPropertyTypes: true,
    noUncheckedIndexedAccess: true,
    skipLibCheck: true,
  });
  const problems = ts.getPreEmitDiagnostics(program).map(({ file, messageText }) => {
    return `${file?.fileName.slice(root.length)}: ${ts.flattenDiagnosticMessageText(messageText, ' ')}`;
  });
  expect(files.length).toBeGreaterThan(20);
  expect(problems).toEqual([]);
});
