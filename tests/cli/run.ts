import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

export const LAUNCHER = fileURLToPath(new URL('../../packages/cli/bin/dwellset.mjs', import.meta.url));
const BUILT = fileURLToPath(new URL('../../packages/cli/dist/index.mjs', import.meta.url));

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the command as a process of its own, as a user does. */
export function dwellset(argv: readonly string[], env: object = {}): Promise<Ran> {
  if (!existsSync(BUILT)) throw new Error('these tests run the built command: run `npm run build` first');
  return launched(LAUNCHER, argv, env);
}

export async function launched(launcher: string, argv: readonly string[], env: object = {}): Promise<Ran> {
  const child = spawn(process.execPath, [launcher, ...argv], {
    env: { ...process.env, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let out = '';
  let err = '';
  child.stdout.setEncoding('utf8').on('data', (chunk: string) => {
    out += chunk;
  });
  child.stderr.setEncoding('utf8').on('data', (chunk: string) => {
    err += chunk;
  });
  const code = await new Promise<number | null>((resolve) => child.on('close', resolve));
  return { code, out, err };
}
