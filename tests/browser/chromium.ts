/// <reference types="node" />
import { execFile } from 'node:child_process';
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { promisify } from 'node:util';
import { type Browser, chromium } from 'playwright-core';
import { inject } from 'vitest';

declare module 'vitest' {
  interface ProvidedContext {
    /** Where a Chromium is; empty where none could be found or installed. */
    chromium: string;
  }
}

const run = promisify(execFile);

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'chrome'];

const ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

function runs(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

const inPath = (): string | undefined =>
  NAMES.flatMap((name) => (process.env.PATH ?? '').split(delimiter).map((folder) => join(folder, name))).find(
    runs,
  );

/** Debian has the browser in a package; only where we may install it. */
async function install(): Promise<void> {
  if (process.getuid?.() !== 0 || !existsSync('/etc/debian_version')) return;
  const options = { env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' }, maxBuffer: 2 ** 26 };
  // Something else on the machine may be installing just now.
  const apt = (...words: string[]) =>
    run('apt-get', ['-q', '-o', 'DPkg::Lock::Timeout=120', ...words], options);
  try {
    await apt('update');
    await apt('install', '-y', 'chromium');
  } catch {
    // What is missing is said by the first test that opens a page, in one sentence.
  }
}

/**
 * Where a Chromium is; installed first where that is possible and none is there. Empty where none can be had. Called
 * once before all tests: two workers that install it at once stand in each other's way.
 */
export async function findChromium(): Promise<string> {
  const stated = process.env.CHROMIUM_PATH;
  if (stated !== undefined && stated !== '') return stated;
  const found = inPath();
  if (found !== undefined) return found;
  await install();
  return inPath() ?? '';
}

export function launch(): Promise<Browser> {
  const executablePath = inject('chromium');
  if (executablePath === '') {
    throw new Error(
      `these tests open pages in a browser: install Chromium, or name it with CHROMIUM_PATH (looked for ${NAMES.join(', ')} in PATH)`,
    );
  }
  if (!runs(executablePath))
    throw new Error(`CHROMIUM_PATH names \`${executablePath}\`, which cannot be run`);
  return chromium.launch({ executablePath, args: ARGUMENTS });
}
