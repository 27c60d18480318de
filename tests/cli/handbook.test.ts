import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { CAUTIONS } from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { parsed } from '../wording/parsed.ts';
import { CASE, policies, write } from './folder.ts';
import { dwellset } from './run.ts';

const at = policies();
const cases = write({ 'long.case.json': CASE, 'other.case.json': CASE });
const long = join(cases, 'long.case.json');
const rules = ['--policies', at, '--allow', 'draft'];

const carriesCautions = (text: string): boolean => CAUTIONS.every((caution) => text.includes(caution));

async function refusal(argv: readonly string[]): Promise<string> {
  const { code, out, err } = await dwellset(argv);
  expect([code, out]).toEqual([1, '']);
  return err.trimEnd();
}

describe('handbook', () => {
  test('writes the whole policy as one page to standard output', async () => {
    const { code, out, err } = await dwellset(['handbook', '--policies', at]);
    expect([code, err]).toEqual([0, '']);
    const { errors, text } = parsed(out);
    expect(errors).toEqual([]);
    expect(carriesCautions(text)).toBe(true);
    expect(text).toContain('When the rule applies Hours in place are more than 48 h (local choice:');
    expect(text).toContain(
      'Society of Invented Care, Short stays, 2024, page 2 · ungraded · from memory, not checked',
    );
    expect(text).toContain('For how many hours has it been in place?');
    expect(text).toContain('Not adopted by any hospital');
  });

  test('gives the same bytes twice', async () => {
    const [one, two] = await Promise.all([
      dwellset(['handbook', '--policies', at]),
      dwellset(['handbook', '--policies', at], { TZ: 'Asia/Tokyo', LANG: 'de_DE.UTF-8' }),
    ]);
    expect(two.out).toBe(one.out);
  });

  test('writes to a file and names it', async () => {
    const file = join(write({}), 'policy.html');
    const { code, out } = await dwellset(['handbook', '--policies', at, '--to', file]);
    expect([code, out]).toEqual([0, `${file}\n`]);
    expect(readFileSync(file, 'utf8')).toMatch(/^<!doctype html>/);
  });

  test('of a hospital shows what it changed, and why', async () => {
    const { out, code } = await dwellset(['handbook', '--hospital', 'harrowmere']);
    expect(code).toBe(0);
    const { text } = parsed(out);
    expect(text).toContain('Adopted by Harrowmere General Hospital (invented)');
    expect(text).toContain('Full bags were found on the floor in our ward audit.');
  });
});

describe('assess as a page', () => {
  test('is one page with advice, reasons and cautions, and without the id of the case', async () => {
    const { code, out, err } = await dwellset(['assess', long, ...rules, '--as', 'html']);
    expect([code, err]).toEqual([0, '']);
    const { errors, text } = parsed(out);
    expect(errors).toEqual([]);
    expect(text).toContain('Do Consider taking the catheter out');
    expect(text).toContain('true hours in place are more than 48 h');
    expect(carriesCautions(text)).toBe(true);
    expect(out).not.toContain('opaque-id-7');
  });

  test('goes to a file where one is named', async () => {
    const file = join(write({}), 'case.html');
    const { code, out } = await dwellset(['assess', long, ...rules, '--as', 'html', '--to', file]);
    expect([code, out]).toEqual([0, `${file}\n`]);
    expect(parsed(readFileSync(file, 'utf8')).text).toContain('Consider taking the catheter out');
  });

  test('is checked on the second engine without a change to the page', async () => {
    const plain = await dwellset(['assess', long, ...rules, '--as', 'html']);
    const checked = await dwellset(['assess', long, ...rules, '--as', 'html', '--cross-check']);
    expect([checked.code, checked.out]).toEqual([0, plain.out]);
    expect(checked.err).not.toBe('');
  });
});

describe('what cannot be written is refused', () => {
  test('several cases on one page', async () => {
    const two = [long, join(cases, 'other.case.json')];
    expect(await refusal(['assess', ...two, ...rules, '--as', 'html'])).toBe(
      'dwellset: `--as html` takes one case; see `dwellset help assess`',
    );
  });
  test('text or JSON to a file', async () => {
    expect(await refusal(['assess', long, ...rules, '--to', 'x.html'])).toBe(
      'dwellset: `--to` needs `--as html`; see `dwellset help assess`',
    );
  });
  test('a file that is no page: a slip must not overwrite a case', async () => {
    expect(await refusal(['assess', long, ...rules, '--as', 'html', '--to', long])).toBe(
      `dwellset: \`--to ${long}\` must end in \`.html\``,
    );
    expect(JSON.parse(readFileSync(long, 'utf8'))).toEqual(CASE);
  });
  test('a file in a folder that is not there', async () => {
    const file = join(cases, 'nowhere', 'policy.html');
    expect(await refusal(['handbook', '--policies', at, '--to', file])).toBe(
      `dwellset: ${file}: its folder does not exist`,
    );
    expect(existsSync(file)).toBe(false);
  });
  test('a policy with a broken rule', async () => {
    const folder = policies({ 'dwell/too-long.rule.json': '{ "id": }' });
    expect(await refusal(['handbook', '--policies', folder])).toMatch(/dwell\/[a-z.-]+\.json:\d+:\d+: /);
  });
});
