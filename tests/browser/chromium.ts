/// <reference types="node" />
import { execFileSync } from 'node:child_process';
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

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
function install(): void {
  if (process.getuid?.() !== 0 || !existsSync('/etc/debian_version')) return;
  try {
    const quiet = { stdio: 'ignore', env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } } as const;
    execFileSync('apt-get', ['update', '-q'], quiet);
    execFileSync('apt-get', ['install', '-y', '-q', 'chromium'], quiet);
  } catch {
    // What is missing is said by the caller, in one sentence.
  }
}

/** Where a Chromium is; installed first where that is possible and none is there. */
function browserPath(): string {
  const stated = process.env.CHROMIUM_PATH;
  if (stated !== undefined && stated !== '') {
    if (!runs(stated)) throw new Error(`CHROMIUM_PATH names \`${stated}\`, which cannot be run`);
    return stated;
  }
  const found = inPath();
  if (found !== undefined) return found;
  install();
  const installed = inPath();
  if (installed !== undefined) return installed;
  throw new Error(
    `these tests open pages in a browser: install Chromium, or name it with CHROMIUM_PATH (looked for ${NAMES.join(', ')} in PATH)`,
  );
}

export const launch = (): Promise<Browser> =>
  chromium.launch({ executablePath: browserPath(), args: ARGUMENTS });
