/// <reference types="node" />
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { Arguments } from './arguments.ts';

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

/** The table with what it takes to read it. */
export function section(table: string, { rules, cases, seeds, missing, rounds }: Arguments): string {
  return `${table}

A number under a set is a speed, in multiples of json-rules-engine on the same set: processor time, all engines in turn in one process, medians of ${rounds} rounds, each lap warmed by its own work. The last three columns are shares of all outcomes, on ${rules[0]} rules / on the shipped rules. Run with rules ${rules.join(', ')}, cases ${cases.join(', ')}, seeds ${seeds.join(', ')}, ${missing * 100} % of facts missing, on: ${machine()}.`;
}

/** Replaces what stands between the two marks; throws where they are missing. */
export function writeReadme(text: string): void {
  const known = readFileSync(README, 'utf8');
  const [start, end] = [known.indexOf(START), known.indexOf(END)];
  if (start === -1 || end < start) throw new Error(`README.md has no ${START} … ${END}`);
  writeFileSync(README, `${known.slice(0, start + START.length)}\n\n${text}\n\n${known.slice(end)}`);
  // Columns are lined up as everywhere else.
  execFileSync('npx', ['biome', 'format', '--write', fileURLToPath(README)], { stdio: 'ignore' });
}
