import { type ChildProcessByStdio, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Readable, Writable } from 'node:stream';
import { type Advice, type Assessment, CAUTIONS } from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { CASE, policies, write } from './folder.ts';
import { dwellset, LAUNCHER } from './run.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const at = policies();
const RULES = ['--policies', at, '--allow', 'draft'];
const MB = 1024 * 1024;

type Child = ChildProcessByStdio<Writable, Readable, Readable>;

const start = (words: readonly string[], flags: readonly string[] = []): Child =>
  spawn(process.execPath, [...flags, LAUNCHER, 'assess', '-', ...RULES, ...words], { stdio: 'pipe' });

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

async function end(child: Child): Promise<Ended> {
  let [out, err] = ['', ''];
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    err += text;
  });
  const [code] = await once(child, 'close');
  return { code, out, err };
}

/** Everything at once into the command, and everything it says. */
async function stream(input: string | Uint8Array, ...words: string[]): Promise<Ended> {
  const child = start(words);
  child.stdin.end(input);
  return end(child);
}

/** What these tests look at of the head and of the lines behind it. */
interface Line {
  readonly line: number;
  readonly head: { readonly caution: unknown; readonly evidence: Record<string, readonly { id: string }[]> };
  readonly caution: unknown;
  readonly advice: readonly unknown[];
  readonly ruleSets: readonly { readonly id: string; readonly rules: Record<string, readonly string[]> }[];
  readonly assessment: unknown;
  readonly error?: { readonly code: string; readonly hint?: string };
}

const linesOf = (out: string): Line[] =>
  out
    .split('\n')
    .slice(0, -1)
    .map((line) => JSON.parse(line) as Line);

const hoursIn = (hours: number, more: object = {}): string =>
  JSON.stringify({
    ...CASE,
    ...more,
    facts: { 'catheter.stage': 'in-place', 'catheter.hours-in': { value: hours, unit: 'h' } },
  });

describe('cases from standard input, one a line', () => {
  test('the cautions come first and stand on every line; lines keep their order and number', async () => {
    const cases = Array.from({ length: 300 }, (_, index) => hoursIn(index, { note: 'x'.repeat(2000) }));
    const { code, out, err } = await stream(cases.join('\n'), '--threads', '1');
    expect([code, err]).toEqual([0, '']);
    const [first, ...lines] = linesOf(out);
    expect(first?.line).toBe(0);
    expect(first?.head.caution).toEqual(CAUTIONS);
    expect(first?.head.evidence['dwell@0.1.0/too-long']?.[0]?.id).toBe('inv-01');
    expect(lines.map(({ line }) => line)).toEqual(cases.map((_, index) => index + 1));
    for (const { line, caution, advice } of lines) {
      expect(caution).toEqual(CAUTIONS);
      expect(advice.length).toBe(line - 1 > 48 ? 1 : 0);
    }
    expect((await stream(cases.join('\n'), '--threads', '3')).out).toBe(out);
  });

  test('with reasons a line holds the assessment that its file gives', async () => {
    const file = join(write({ 'one.case.json': CASE }), 'one.case.json');
    const alone = JSON.parse((await dwellset(['assess', file, ...RULES, '--as', 'json'])).out);
    const { out } = await stream(`${JSON.stringify(CASE)}\n`, '--reasons', 'deciding');
    expect(linesOf(out)[1]).toEqual({ line: 1, assessment: alone });
  });

  test('head and line together say of a shipped case what its assessment says', async () => {
    const hospital = join(ROOT, 'policies/hospitals/harrowmere');
    const file = join(hospital, 'cases/after-operation.case.json');
    const words = ['--hospital', hospital];
    const whole = await dwellset(['assess', file, ...words, '--as', 'json', '--reasons', 'none']);
    const assessment = JSON.parse(whole.out) as Assessment;
    const child = spawn(process.execPath, [LAUNCHER, 'assess', '-', ...words], { stdio: 'pipe' });
    child.stdin.end(JSON.stringify(JSON.parse(readFileSync(file, 'utf8'))));
    const [first, line] = linesOf((await end(child)).out);
    const advice = line?.advice as Omit<Advice, 'evidence'>[];
    expect(advice.length).toBeGreaterThan(0);
    expect(advice.map((one) => ({ ...one, evidence: first?.head.evidence[one.id] }))).toEqual(
      assessment.advice,
    );
    const outcomes = assessment.ruleSets.map(({ id, rules }) => [
      id,
      rules.map((rule) => `${rule.outcome} ${rule.id}`).sort(),
    ]);
    const told = line?.ruleSets.map(({ id, rules }) => [
      id,
      Object.entries(rules)
        .flatMap(([outcome, ids]) => ids.map((rule) => `${outcome} ${rule}`))
        .sort(),
    ]);
    expect(told).toEqual(outcomes);
    expect(line).toMatchObject({
      counts: assessment.counts,
      problems: assessment.problems,
      asOf: assessment.asOf,
    });
  });

  test('a line that cannot be read is reported with its number, the others are assessed, and the exit code is 2', async () => {
    const good = hoursIn(60);
    const twice = good.replace('"facts":', '"asOf":"2026-01-01T00:00:00Z","facts":');
    const text = [
      good,
      '{"asOf":',
      '',
      `${good}\r`,
      hoursIn(1).replace('catheter.hours-in', 'catheter.hour-in'),
      twice,
    ];
    const long = `${good.slice(0, -1)},"note":"${'y'.repeat(MB)}"}`;
    const bytes = Buffer.concat([
      Buffer.from(`${[...text, long].join('\n')}\n`),
      Buffer.from([0x22, 0xff, 0x22, 0x0a]),
    ]);
    const { code, out, err } = await stream(Buffer.concat([bytes, Buffer.from(good)]), '--threads', '2');
    const lines = linesOf(out).slice(1);
    expect(lines.map(({ line, error }) => [line, error?.code])).toEqual([
      [1, undefined],
      [2, 'broken-json'],
      [4, undefined],
      [5, 'unknown-fact'],
      [6, 'duplicate-key'],
      [7, 'too-large'],
      [8, 'not-utf8'],
      [9, undefined],
    ]);
    expect(lines[3]?.error?.hint).toContain('catheter.hours-in');
    expect(err).toBe('dwellset: 5 of 8 lines hold no case that can be read\n');
    expect(code).toBe(2);
  });

  test('counts on standard error where it is asked to', async () => {
    const { err } = await stream(`${hoursIn(1)}\n{}\n`, '--progress', '--threads', '1');
    expect(err).toMatch(/\r1 cases, 1 not read, 0\.0 MB, \d+ a second/);
  });

  test.each([
    ['files beside it', ['x.case.json']],
    ['another form', ['--as', 'text']],
    ['a second engine', ['--cross-check']],
    ['no thread at all', ['--threads', '0']],
  ])('refuses %s', async (_what, words) => {
    const { code, out, err } = await stream('', ...words);
    expect([code, out]).toEqual([1, '']);
    expect(err).toMatch(/^dwellset: [^\n]+\n$/);
  });
});

/** Memory that a process holds, in MB. */
const held = ({ pid }: Child): number =>
  Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024;

describe('a long stream', () => {
  test('64 MB go through a heap of 96 MB; while the reader waits, nothing more is taken in', async () => {
    const line = `${hoursIn(60, { note: 'z'.repeat(16_000) })}\n`;
    const count = Math.ceil((64 * MB) / line.length);
    const child = start(['--threads', '1'], ['--max-old-space-size=96']);
    let taken = 0;
    const feed = (async () => {
      for (; taken < count; taken += 1) {
        if (!child.stdin.write(line)) await once(child.stdin, 'drain');
      }
      child.stdin.end();
    })();
    // Nobody reads: the command fills the pipes and then waits.
    await once(child.stdout, 'readable');
    let before = -1;
    while (before !== taken) {
      before = taken;
      await new Promise((resolve) => setTimeout(resolve, 400));
    }
    expect(taken * line.length).toBeLessThan(16 * MB);
    const waiting = held(child);
    let lines = 0;
    let most = 0;
    child.stdout.on('data', (chunk: Buffer) => {
      if (lines % 64 === 0 && child.exitCode === null) most = Math.max(most, held(child));
      for (const byte of chunk) if (byte === 0x0a) lines += 1;
    });
    const [[code]] = await Promise.all([once(child, 'close'), feed]);
    expect([code, lines]).toEqual([0, count + 1]);
    expect(most).toBeLessThan(waiting + 96);
  });

  test('an interrupt ends it between two lines and says where', async () => {
    const child = start(['--threads', '2']);
    child.stdin.on('error', () => {});
    const line = `${hoursIn(60)}\n`.repeat(100);
    const timer = setInterval(() => child.stdin.writable && child.stdin.write(line), 5);
    child.stdout.once('data', () => setTimeout(() => child.kill('SIGINT'), 300));
    const { code, out, err } = await end(child);
    clearInterval(timer);
    expect(out.endsWith('\n')).toBe(true);
    const lines = linesOf(out).slice(1);
    expect(lines.map((made) => made.line)).toEqual(lines.map((_, index) => index + 1));
    expect(err).toBe(`dwellset: stopped after ${lines.length} lines\n`);
    expect(code).toBe(130);
  });

  test('a reader that has seen enough ends it without complaint', async () => {
    const child = start([]);
    child.stdin.on('error', () => {});
    const timer = setInterval(
      () => child.stdin.writable && child.stdin.write(`${hoursIn(60)}\n`.repeat(100)),
      5,
    );
    child.stdout.once('data', () => child.stdout.destroy());
    let err = '';
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      err += text;
    });
    const [code] = await once(child, 'exit');
    clearInterval(timer);
    expect([code, err]).toEqual([0, '']);
  });
});
