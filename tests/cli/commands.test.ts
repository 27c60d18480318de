import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { CAUTIONS } from '@dwellset/core';
import { beforeAll, describe, expect, test } from 'vitest';
import { CASE, document, policies, write } from './folder.ts';
import { dwellset, LAUNCHER } from './run.ts';

const at = policies();
const rules = ['--policies', at, '--allow', 'draft'];
const cases = write({
  'long.case.json': CASE,
  'open.case.json': { ...CASE, facts: { 'catheter.stage': 'in-place' } },
});
const long = join(cases, 'long.case.json');
const open = join(cases, 'open.case.json');
const flat = (text: string): string => text.replace(/\s+/g, ' ');
const carriesCautions = (text: string): boolean => CAUTIONS.every((caution) => flat(text).includes(caution));

describe('assess', () => {
  test('advice is no error, and a local case never shows its id', async () => {
    const { code, out, err } = await dwellset(['assess', long, ...rules]);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out).toContain('\nDo\n\n  Consider taking the catheter out\n');
    expect(out).toContain('Found    hours in place: 60 h');
    expect(flat(out)).toContain(
      'Society of Invented Care, Short stays, 2024, page 2 · ungraded · from memory, not checked',
    );
    expect(out).not.toContain('opaque-id-7');
    expect(carriesCautions(out)).toBe(true);
  });

  test('what is not known becomes a question, never a no', async () => {
    const { out } = await dwellset(['assess', open, ...rules]);
    expect(out).toContain('No rule applied; 1 could not be decided, 0 not in scope.');
    expect(out).toContain(
      'Not known: ask\n\n  1  For how many hours has it been in place?\n     Nobody supplied it.',
    );
  });

  test('several cases stand one after the other under their file names', async () => {
    const { out, code } = await dwellset(['assess', long, open, ...rules]);
    expect(code).toBe(0);
    expect(out.startsWith(`${long}\n\nAssessment as of`)).toBe(true);
    expect(out).toContain(`\n\n${open}\n\nAssessment as of`);
  });

  test('as JSON it is the assessment itself; several make a list', async () => {
    const one = await dwellset(['assess', long, ...rules, '--as', 'json']);
    const assessment = JSON.parse(one.out);
    expect(assessment.advice.map(({ id }: { id: string }) => id)).toEqual(['dwell@0.1.0/too-long']);
    expect(assessment.caution).toEqual(CAUTIONS);
    const two = await dwellset(['assess', long, open, ...rules, '--as', 'json']);
    expect(JSON.parse(two.out)[0]).toEqual(assessment);
  });

  test('reasons come in three depths', async () => {
    const text = async (reasons: string) =>
      (await dwellset(['assess', long, ...rules, '--reasons', reasons])).out;
    expect(await text('none')).not.toContain('Found');
    expect(await text('deciding')).not.toContain('Proof');
    const all = await text('all');
    expect(all).toContain('Proof, rule by rule\n\n  In place for long – applies\n');
    expect(flat(all)).toContain(
      'true hours in place are more than 48 h (local choice: longest time in place) – found: 60 h',
    );
  });

  test('the second engine is asked on request, beside the assessment', async () => {
    const plain = await dwellset(['assess', long, ...rules]);
    const checked = await dwellset(['assess', long, ...rules, '--cross-check']);
    expect(checked.out).toBe(plain.out);
    expect(checked.err).toMatch(
      /^.*long\.case\.json: cross-check: \d+ results? compared, the two engines agree\n$/,
    );
    expect(checked.code).toBe(0);
  });

  test('gives the same bytes in any locale and zone', async () => {
    const plain = await dwellset(['assess', long, ...rules]);
    for (const env of [
      { LANG: 'ar_EG.UTF-8', LC_ALL: 'ar_EG.UTF-8', TZ: 'Pacific/Auckland' },
      { LANG: 'C', LC_ALL: 'C', TZ: 'America/Los_Angeles', COLUMNS: '200', NO_COLOR: '' },
    ]) {
      expect((await dwellset(['assess', long, ...rules], env)).out).toBe(plain.out);
    }
  });

  test('a reader that stops early is no error', async () => {
    const many = Array.from({ length: 200 }, () => long);
    const child = spawn(process.execPath, [LAUNCHER, 'assess', ...many, ...rules], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let err = '';
    child.stderr.on('data', (chunk) => {
      err += chunk;
    });
    child.stdout.once('data', () => child.stdout.destroy());
    const code = await new Promise((resolve) => child.on('close', resolve));
    expect(err).toBe('');
    expect(code).toBe(0);
  });
});

describe('pin, and a hospital of its own', () => {
  const folder = policies();
  const hospital = join(folder, 'hospitals', 'thornleigh');
  beforeAll(async () => {
    const { code, err } = await dwellset(['pin', 'thornleigh', '--policies', folder]);
    expect(err).toBe('');
    expect(code).toBe(0);
  });

  test('fills the digests and nothing else, and a second time changes nothing', async () => {
    const read = (name: string) => readFileSync(join(hospital, name), 'utf8');
    const adoption = JSON.parse(read('adoption.json'));
    const amendment = JSON.parse(read('amendment.json'));
    expect(adoption.releases[0].digest).toMatch(/^(?!0{64})[0-9a-f]{64}$/);
    expect(amendment.amends[0].digest).toMatch(/^(?!0{64})[0-9a-f]{64}$/);
    adoption.releases[0].digest = '0'.repeat(64);
    amendment.amends[0].digest = '0'.repeat(64);
    expect(adoption).toEqual(document('hospitals/thornleigh/adoption.json'));
    expect(amendment).toEqual(document('hospitals/thornleigh/amendment.json'));
    const before = read('adoption.json') + read('amendment.json');
    const again = await dwellset(['pin', hospital, '--policies', folder]);
    expect(again.code).toBe(0);
    expect(read('adoption.json') + read('amendment.json')).toBe(before);
  });

  test('an adopted set runs without leave, and the local choice decides', async () => {
    const local = await dwellset(['assess', long, '--policies', folder, '--hospital', hospital]);
    expect(local.code).toBe(0);
    expect(local.out).toContain('Adopted by Thornleigh Infirmary');
    expect(local.out).toMatch(
      /^Rules · active by adoption\n {2}dwell 0\.1\.0 {2}base [0-9a-f]{12} · local [0-9a-f]{12}, 1 change\n/m,
    );
    expect(local.out).toContain('No rule applied; 0 could not be decided, 0 not in scope.');
  });

  test('a hospital folder may lie anywhere', async () => {
    const away = write({
      'adoption.json': readFileSync(join(hospital, 'adoption.json'), 'utf8'),
      'amendment.json': readFileSync(join(hospital, 'amendment.json'), 'utf8'),
    });
    const { out } = await dwellset(['assess', long, '--policies', at, '--hospital', away]);
    expect(out).toContain('Adopted by Thornleigh Infirmary');
  });
});

describe('forecast', () => {
  test('looks ahead and says that only time moves', async () => {
    const { code, out } = await dwellset(['forecast', long, ...rules, '--hours', '6']);
    expect(code).toBe(0);
    expect(out).toContain('Forecast from 2026-06-01 09:00 to 2026-06-01 15:00, Europe/London');
    expect(out).toContain('Nothing changes in this time.');
    expect(carriesCautions(out)).toBe(true);
  });
});

describe('facts', () => {
  test('lists the dictionary with questions, units and codes', async () => {
    const { code, out } = await dwellset(['facts', '--policies', at]);
    expect(code).toBe(0);
    expect(out).toContain(
      'The catheter\n\n  catheter.stage – stage of care\n     Is the catheter in place?\n',
    );
    expect(out).toContain('       in-place: the catheter is in place\n');
    expect((await dwellset(['facts', 'dwell', '--policies', at])).out).toContain('catheter.hours-in');
  });
});

describe('vignettes', () => {
  test('all as expected is exit code 0', async () => {
    const { code, out, err } = await dwellset(['vignettes', '--policies', at]);
    expect(err).toBe('');
    expect(out).toContain('dwell: 3 vignettes, all as expected');
    expect(carriesCautions(out)).toBe(true);
    expect(code).toBe(0);
  });

  test('one that comes out otherwise is shown at its place, exit code 2', async () => {
    const changed = document('dwell/too-long.vignettes.json') as { vignettes: { expect: unknown }[] };
    const [first] = changed.vignettes;
    if (!first) throw new Error('the small policies hold vignettes');
    first.expect = { rules: { 'too-long': 'does-not-apply' } };
    const folder = policies({ 'dwell/too-long.vignettes.json': changed });
    for (const path of [[], ['dwell'], ['dwell/too-long.vignettes.json'], [folder]]) {
      const { code, out } = await dwellset(['vignettes', ...path, '--policies', folder]);
      expect(code).toBe(2);
      expect(out).toMatch(
        /dwell\/too-long\.vignettes\.json:\d+:\d+\n {2}three days in place \(three-days\)\n/,
      );
      expect(out).toContain('does-not-apply');
      expect(out).toContain('dwell: 3 vignettes, 1 not as expected');
    }
  });
});

describe('vignettes --coverage', () => {
  const run = (...argv: string[]) => dwellset(['vignettes', '--policies', at, '--coverage', ...argv]);

  test('follows the run with totals, then with what no vignette shows, at its place', async () => {
    const { code, out, err } = await run();
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out.startsWith((await dwellset(['vignettes', '--policies', at])).out)).toBe(true);
    expect(out).toMatch(/\ndwell: covered by 3 vignettes\n {2}outcomes of rules +3 of +4 +75\.0 %\n/);
    expect(out).toMatch(/\nNot covered in dwell\n\n.*dwell\/ruleset\.json:\d+:\d+\n {2}scope of the set: /);
    expect(flat(out)).toMatch(
      /dwell\/too-long\.rule\.json:\d+:\d+ too-long, when: hours in place are more than 48 h \(local choice: longest time in place\) – never met just below, met exactly at or met just above/,
    );
    expect(flat(out)).toContain('masking MC/DC');
  });

  test('a total below the least is a failure, one that reaches it is not', async () => {
    expect((await run('--least', '0')).code).toBe(0);
    const { code, out } = await run('--least', '50');
    expect(code).toBe(2);
    expect(out).toBe((await run()).out);
  });

  test('a set without vignettes is covered by none', async () => {
    const folder = policies({ 'dwell/too-long.vignettes.json': '' });
    const { out } = await dwellset(['vignettes', folder, '--coverage']);
    expect(out).toContain('dwell: covered by 0 vignettes\n  outcomes of rules');
  });

  test('a vignette that fails is a failure still, whatever is covered', async () => {
    const changed = document('dwell/too-long.vignettes.json') as { vignettes: { expect: unknown }[] };
    for (const vignette of changed.vignettes) vignette.expect = { rules: { 'too-long': 'not-in-scope' } };
    const folder = policies({ 'dwell/too-long.vignettes.json': changed });
    const { code, out } = await dwellset(['vignettes', folder, '--coverage']);
    expect(code).toBe(2);
    expect(out).toContain('dwell: covered by 3 vignettes');
  });
});

describe('check', () => {
  test('nothing to correct is exit code 0', async () => {
    const folder = policies({
      'hospitals/thornleigh/adoption.json': {
        ...document('hospitals/thornleigh/adoption.json'),
        releases: [],
      },
      'hospitals/thornleigh/amendment.json': {
        ...document('hospitals/thornleigh/amendment.json'),
        amends: [],
      },
    });
    const { code, out, err } = await dwellset(['check', '--policies', folder]);
    expect(err).toBe('');
    expect(out).toMatch(/\d+ documents checked: (nothing to correct|0 errors, .*)\n$/);
    expect(code).toBe(0);
  });

  test('errors are listed at their places, exit code 2, and a path narrows the list', async () => {
    const rule = { ...document('dwell/too-long.rule.json'), evidence: ['nowhere'], summary: 'x' };
    const folder = policies({ 'dwell/too-long.rule.json': rule });
    const all = await dwellset(['check', folder]);
    expect(all.code).toBe(2);
    expect(all.err).toBe('');
    expect(all.out).toMatch(/dwell\/too-long\.rule\.json:\d+:\d+ · error · [a-z-]+\n {2}/);
    const narrowed = await dwellset(['check', 'facts', '--policies', folder]);
    expect(narrowed.code).toBe(0);
    expect(narrowed.out).not.toContain('too-long');
  });

  test('a case file is checked against the dictionary', async () => {
    expect((await dwellset(['check', long, '--policies', at])).code).toBe(0);
    const wrong = join(
      write({ 'w.case.json': { ...CASE, facts: { 'catheter.hour-in': 1 } } }),
      'w.case.json',
    );
    const { code, out } = await dwellset(['check', wrong, '--policies', at]);
    expect(code).toBe(2);
    expect(out).toContain('catheter.hour-in');
  });
});

describe('help', () => {
  test('lists every command, and says more about each', async () => {
    const { code, out } = await dwellset([]);
    expect(code).toBe(0);
    expect((await dwellset(['help'])).out).toBe(out);
    for (const name of ['assess', 'forecast', 'facts', 'vignettes', 'check', 'pin', 'demo']) {
      expect(out).toMatch(new RegExp(`^ {2}${name} `, 'm'));
      const help = await dwellset(['help', name]);
      expect(help.out.startsWith(`dwellset ${name} `)).toBe(true);
      expect((await dwellset([name, '--help'])).out).toBe(help.out);
    }
  });
});

describe('demo', () => {
  test('assesses the invented patients of the invented hospital', async () => {
    const { code, out, err } = await dwellset(['demo']);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out.match(/^Assessment as of /gm)?.length).toBeGreaterThan(1);
    expect(out).toContain('active by adoption');
    expect(carriesCautions(out)).toBe(true);
  });
});
