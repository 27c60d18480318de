/// <reference types="node" />
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import type { TestProject } from 'vitest/node';
import { findChromium } from './chromium.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** The folder that the bench was built into, once for all tests that open it. */
    builtBench: string;
  }
}

const root = fileURLToPath(new URL('../../playground', import.meta.url));

export default async function buildBench(project: TestProject): Promise<() => void> {
  const outDir = mkdtempSync(join(tmpdir(), 'bench-'));
  const [chromium] = await Promise.all([
    findChromium(),
    build({ root, logLevel: 'error', build: { outDir } }),
  ]);
  project.provide('chromium', chromium);
  project.provide('builtBench', outDir);
  return () => rmSync(outDir, { recursive: true, force: true });
}
