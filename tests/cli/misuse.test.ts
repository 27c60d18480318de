import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { CASE, document, policies, write } from './folder.ts';
import { dwellset, LAUNCHER, launched } from './run.ts';

/** One line on standard error, nothing on standard output, exit code 1. */
async function refusal(argv: readonly string[]): Promise<string> {
  const { code, out, err } = await dwellset(argv);
  expect(out).toBe('');
  expect(err).toMatch(/^dwellset: [^\n]+\n$/);
  expect(err).not.toMatch(/node:|\.mjs|at .*:\d+:\d+\)/);
  expect(code).toBe(1);
  return err.slice('dwellset: '.length, -1);
}

const at = policies();
const good = join(write({ 'good.case.json': CASE }), 'good.case.json');
const rules = ['--policies', at, '--allow', 'draft'];
const broken = (name: string, value: unknown): string => join(write({ [name]: value }), name);

describe('what is not understood is refused', () => {
  test.each([
    ['an unknown command', ['asess'], 'there is no command `asess`; `dwellset help` lists them'],
    [
      'help for an unknown command',
      ['help', 'asess'],
      'there is no command `asess`; `dwellset help` lists them',
    ],
    [
      'an unknown option',
      ['assess', good, '--colour'],
      'unknown option `--colour`; see `dwellset help assess`',
    ],
    ['an unknown short option', ['check', '-v'], 'unknown option `-v`; see `dwellset help check`'],
    [
      'an option of another command',
      ['facts', '--hours', '4'],
      'unknown option `--hours`; see `dwellset help facts`',
    ],
    [
      'an option without its value',
      ['assess', good, '--hospital'],
      '`--hospital` needs a value; see `dwellset help assess`',
    ],
    [
      'an option in place of a value',
      ['assess', good, '--hospital', '--as', 'json'],
      '`--hospital` needs a value; see `dwellset help assess`',
    ],
    [
      'a switch with a value',
      ['assess', good, '--cross-check=yes'],
      '`--cross-check` takes no value; see `dwellset help assess`',
    ],
    ['a least total without a count', ['vignettes', '--least', '90'], '`--least` needs `--coverage`'],
    [
      'a least total that is no percentage',
      ['vignettes', '--coverage', '--least', '101'],
      '`--least 101` is no percentage from 0 to 100',
    ],
    [
      'a least total that is no number',
      ['vignettes', '--coverage', '--least', 'most'],
      '`--least most` is no percentage from 0 to 100',
    ],
    [
      'an option given twice',
      ['assess', good, '--as', 'json', '--as', 'text'],
      '`--as` is given twice; see `dwellset help assess`',
    ],
    [
      'a form that does not exist',
      ['assess', good, '--as', 'pdf'],
      '`--as pdf` is not known, expected one of: text, json, html; see `dwellset help assess`',
    ],
    [
      'an unknown state',
      ['assess', good, '--allow', 'anything'],
      '`--allow anything` is not known, expected one of: draft, retired, withdrawn, out-of-period; see `dwellset help assess`',
    ],
    ['no case', ['assess'], 'no case is named; see `dwellset help assess`'],
    ['no case to look ahead for', ['forecast'], 'no case is named; see `dwellset help forecast`'],
    ['no hours', ['forecast', good, ...rules], '`--hours N` is missing; see `dwellset help forecast`'],
    [
      'two cases to look ahead for',
      ['forecast', good, good, '--hours', '4'],
      `\`${good}\` is one argument too many; see \`dwellset help forecast\``,
    ],
    ['no hospital to pin', ['pin'], 'no hospital is named; see `dwellset help pin`'],
  ])('%s', async (_, argv, message) => {
    expect(await refusal(argv)).toBe(message);
  });

  test.each(['0', '-4', 'six', '1e3', '9999'])('hours of %s', async (hours) => {
    expect(await refusal(['forecast', good, ...rules, `--hours=${hours}`])).toBe(
      `\`--hours ${hours}\` is not a number of hours above 0 and up to 8784`,
    );
  });
});

describe('what is not there is named', () => {
  test('a case file', async () => {
    expect(await refusal(['assess', 'nowhere.case.json', ...rules])).toBe('nowhere.case.json: no such file');
  });
  test('a folder in place of a case file', async () => {
    expect(await refusal(['assess', at, ...rules])).toBe(`${at}: is a folder, not a file`);
  });
  test('a policies folder', async () => {
    expect(await refusal(['check', '--policies', 'nowhere'])).toBe('nowhere: no such folder');
  });
  test('a folder that holds no policies', async () => {
    const other = write({ 'readme.json': {} });
    expect(await refusal(['facts', '--policies', other])).toBe(
      `${other}: is no policies folder, it has no folder \`facts\``,
    );
  });
  test('a hospital', async () => {
    expect(await refusal(['assess', good, '--policies', at, '--hospital', 'nowhere'])).toBe(
      'nowhere: no such hospital folder',
    );
  });
  test('a rule set', async () => {
    expect(await refusal(['assess', good, ...rules, '--set', 'dwel'])).toBe(
      'there is no rule set `dwel`; there are: dwell',
    );
    expect(await refusal(['facts', 'dwel', '--policies', at])).toBe(
      'there is no rule set `dwel`; there are: dwell',
    );
  });
  test('a path to check', async () => {
    expect(await refusal(['check', 'nowhere', '--policies', at])).toBe('nowhere: no such file or folder');
    expect(await refusal(['vignettes', 'nowhere', '--policies', at])).toBe('nowhere: no such file or folder');
  });
});

describe('a case that is not sound is refused whole, with the place of the first mistake', () => {
  const assessed = (value: unknown) => refusal(['assess', broken('x.case.json', value), ...rules]);

  test('broken JSON', async () => {
    const message = await assessed('{\n  "asOf": "2026-06-01T09:00:00Z",\n  "facts": {,}\n}\n');
    expect(message).toMatch(/x\.case\.json:3:13: /);
  });
  test('an empty file', async () => {
    expect(await assessed('')).toMatch(/x\.case\.json:1:1: /);
  });
  test('text that is not UTF-8 is not read at all', async () => {
    const file = broken('x.case.json', '');
    writeFileSync(file, Buffer.from([0x7b, 0xff, 0x7d]));
    expect(await refusal(['assess', file, ...rules])).toBe(`${file}: is not UTF-8 text`);
  });
  test('an unknown fact, with the name that was meant', async () => {
    const facts = { 'catheter.stage': 'in-place', 'catheter.hour-in': { value: 60, unit: 'h' } };
    const message = await assessed({ ...CASE, facts });
    expect(message).toMatch(/x\.case\.json:8:5: .*`catheter\.hour-in`/);
    expect(message).toContain('catheter.hours-in');
  });
  test('an unknown key', async () => {
    expect(await assessed({ ...CASE, patient: 'x' })).toMatch(/x\.case\.json:\d+:3: .*`patient`/);
  });
  test('a key given twice', async () => {
    expect(
      await assessed('{\n  "asOf": "2026-06-01T09:00:00Z",\n  "asOf": "2026-06-02T09:00:00Z"\n}'),
    ).toMatch(/x\.case\.json:3:3: /);
  });
  test('further mistakes are counted', async () => {
    expect(await assessed({ ...CASE, one: 1, two: 2, three: 3 })).toMatch(/ \(and 2 more\)$/);
  });
});

test('a command that is not built yet says so', async () => {
  const folder = write({ 'bin/dwellset.mjs': readFileSync(LAUNCHER, 'utf8') });
  const { code, out, err } = await launched(join(folder, 'bin', 'dwellset.mjs'), ['help']);
  expect([code, out, err]).toEqual([
    1,
    '',
    'dwellset: not built yet; run `npm run build` in the repository first\n',
  ]);
});

describe('rules that may not run do not run', () => {
  test('drafts need to be allowed', async () => {
    const message = await refusal(['assess', good, '--policies', at]);
    expect(message).toBe(
      'these rules are drafts until a hospital adopts them: name one with `--hospital`, or try them out with `--allow draft`',
    );
  });
  test('an amendment of another base is refused at its place', async () => {
    const message = await refusal(['assess', good, '--policies', at, '--hospital', 'thornleigh']);
    expect(message).toMatch(/hospitals\/thornleigh\/amendment\.json:\d+:\d+: .*another text/);
  });
  test('a rule set with a broken rule is refused at its place', async () => {
    const folder = policies({ 'dwell/too-long.rule.json': '{ "id": }' });
    expect(await refusal(['assess', good, '--policies', folder, '--allow', 'draft'])).toMatch(
      /dwell\/[a-z.-]+\.json:\d+:\d+: /,
    );
  });
  test('a hospital that adopted another text', async () => {
    const folder = policies({ 'hospitals/thornleigh/amendment.json': '' });
    const own = write({ 'adoption.json': document('hospitals/thornleigh/adoption.json') });
    const message = await refusal(['assess', good, '--policies', folder, '--hospital', own]);
    expect(message).toContain('Thornleigh Infirmary adopted another text of this version');
  });
});
