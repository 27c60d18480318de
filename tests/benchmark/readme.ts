/// <reference types="node" />
import { readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus } from 'node:os';

const README = new URL('../../README.md', import.meta.url);
const [START, END] = ['<!-- benchmark -->', '<!-- /benchmark -->'];

const versionOf = (name: string): string => {
  const text = readFileSync(new URL(`../../node_modules/${name}/package.json`, import.meta.url), 'utf8');
  return `${name} ${(JSON.parse(text) as { version: string }).version}`;
};

/** What was run, and on what. */
export const machine = (): string =>
  [
    `${cpus()[0]?.model.trim() || 'an unnamed processor'}, ${availableParallelism()} cores`,
    `Node.js ${process.versions.node}`,
    ...['json-rules-engine', 'json-logic-engine', 'sql.js'].map(versionOf),
    new Date().toISOString().slice(0, 10),
  ].join('; ');

/** Replaces what stands between the two marks; throws where they are missing. */
export function writeReadme(text: string): void {
  const known = readFileSync(README, 'utf8');
  const [start, end] = [known.indexOf(START), known.indexOf(END)];
  if (start === -1 || end < start) throw new Error(`README.md has no ${START} … ${END}`);
  writeFileSync(README, `${known.slice(0, start + START.length)}\n\n${text}\n\n${known.slice(end)}`);
}
