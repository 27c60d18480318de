import { buildRelease, compareReleases, readLibrary, runVignettes, type Side } from '@dwellset/authoring';
import { CAUTIONS, digest, type Release } from '@dwellset/core';
import { type ReportShown, reportHtml, reportJunit, reportMarkdown } from '@dwellset/wording';
import { DOMParser, type Element } from '@xmldom/xmldom';
import { describe, expect, it } from 'vitest';
import { filesOf, policy } from '../authoring/fixture.ts';
import { parsed } from './parsed.ts';

const library = readLibrary(filesOf(policy()));
const published = buildRelease(library, 'removal').release!;
const range = { line: 3, column: 5 };
const flat = (text: string): string => text.replace(/\s+/g, ' ');

/** A report in which a gate is refused, one accepted, one not run, a vignette fails, and a version is withdrawn. */
function reported(say: (text: string) => string = (text) => text): ReportShown {
  // A release has a digest, so no half of a pair can stand in one; everything else may be worse.
  const inRelease = (text: string) => say(text).replace(/\p{Cs}/gu, '');
  const parameters = published.parameters.map((one) =>
    one.id === 'dwell.longest' ? { ...one, value: 7 } : one,
  );
  const base = { version: '0.1.0', digest: digest(published) };
  const changes = [
    { item: 'dwell.longest', change: 'set', from: '14', to: '7', reason: inRelease('Weekly round.') },
  ];
  const release: Release = {
    ...published,
    title: inRelease(published.title),
    parameters,
    amendment: {
      id: 'a',
      version: '1.0.0',
      organisation: inRelease('Elm'),
      approverRole: inRelease('nurse'),
      date: '2030-01-01',
      base,
      changes,
    },
  };
  const vignettes = runVignettes(library, { set: 'removal' }).map((one, at) => ({
    ...one,
    title: say(one.title),
    path: 'removal/overdue.vignettes.json',
    range,
    ...(at === 0 && { mismatches: [{ what: 'speaks', expected: say('review'), received: null }] }),
    ...(at === 2 && { mismatches: [{ what: 'ask', expected: 'x', received: 'y' }], changedBy: changes }),
  }));
  return {
    sets: [
      {
        release,
        digest: digest(release),
        gates: [
          { gate: 'check', outcome: 'passed', findings: [] },
          { gate: 'coverage', outcome: 'accepted', findings: ['limits: 50 %'], reason: say('small example') },
          { gate: 'mutation', outcome: 'refused', findings: [say('all: 3 / 8')] },
          { gate: 'second-engine', outcome: 'not-run' },
        ],
        vignettes,
        comparison: compareReleases([published] as Side, [release] as Side, []),
        before: published,
      },
    ],
    findings: [
      { code: 'broken-json', severity: 'error', path: 'a.json', range, message: say('something is wrong') },
      { code: 'untested-rule', severity: 'warning', path: 'b.json', range, message: 'no vignette' },
    ],
    withdrawals: [
      {
        $schema: 'urn:dwellset:withdrawal:1',
        id: 'removal',
        version: '0.1.0',
        digest: base.digest,
        date: '2030-02-01',
        approverRole: 'editor',
        reason: say('It counts wrongly.'),
      },
    ],
  };
}

/** Says on a committee's page and in a pull request alike. */
const SAID = [
  ...CAUTIONS,
  'Withdrawn',
  'It counts wrongly.',
  'No version is named to use instead.',
  'accepted in spite of what was found',
  'Reason: small example',
  'not run for this report',
  'Weekly round.',
  '3 vignettes: 1 not as expected, 1 changed by local policy.',
  'expected review, came out as nothing',
  'error: broken-json',
  digest(published),
] as const;

describe('a report', () => {
  const shown = reported();

  it('is one page that loads nothing, with open findings first and the cautions at both ends', () => {
    const page = reportHtml(shown);
    const text = flat(parsed(page).text);
    for (const said of SAID) expect(text).toContain(said);
    for (const caution of CAUTIONS) expect(text.split(caution).length).toBeGreaterThan(2);
    const order = ['Open findings', 'Local amendment', 'What changed', 'Results', 'Hazards', 'Digests'];
    const places = order.map((title) => page.search(new RegExp(`<h2 id="[a-z]+">${title}`)));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
    expect(page).not.toMatch(/<script|<img|<link|https?:\/\//);
  });

  it('says the same in Markdown, one list item a line', () => {
    const text = reportMarkdown(shown).replace(/\\(?=[^\w\s])/g, '');
    for (const said of SAID) expect(flat(text)).toContain(said);
    expect(text).toMatch(/^# Report on the rules of Elm$/m);
    expect(text).toMatch(/^- mutation – \*\*refused\*\*$|^- removal · mutation – \*\*refused\*\*$/m);
  });

  it('says that nothing is open only where everything was run', () => {
    const [set] = shown.sets;
    const quiet = {
      ...shown,
      withdrawals: [],
      findings: [],
      sets: [{ ...set!, gates: [set!.gates[0]!], vignettes: set!.vignettes.slice(1, 2) }],
    };
    expect(reportMarkdown(quiet)).toContain('Nothing is open');
    const unrun = { ...quiet, sets: [{ ...quiet.sets[0]!, gates: [set!.gates[3]!] }] };
    expect(reportMarkdown(unrun)).not.toContain('Nothing is open');
    for (const less of [{ gates: [] }, { vignettes: [] }, { vignettes: set!.vignettes.slice(1) }]) {
      expect(reportMarkdown({ ...quiet, sets: [{ ...quiet.sets[0]!, ...less }] })).not.toContain(
        'Nothing is open',
      );
    }
  });
});

/** The suites of a report as an XML parser reads them; what is not well-formed throws. */
function suitesOf(text: string) {
  const document = new DOMParser({
    onError: (_level, message) => {
      throw new Error(message);
    },
  }).parseFromString(text, 'text/xml');
  const all = (name: string, of: Element | typeof document = document) => [...of.getElementsByTagName(name)];
  const count = (of: Element) => ({
    tests: all('testcase', of).length,
    failures: all('failure', of).length,
    errors: all('error', of).length,
    skipped: all('skipped', of).length,
  });
  const stated = (of: Element) =>
    Object.fromEntries(Object.keys(count(of)).map((name) => [name, Number(of.getAttribute(name))]));
  return { root: document.documentElement!, suites: all('testsuite'), all, count, stated };
}

describe('a report for a pipeline', () => {
  it('is well-formed, and counts what it holds', () => {
    const { root, suites, all, count, stated } = suitesOf(reportJunit(reported()));
    expect(root.tagName).toBe('testsuites');
    expect(suites.map((one) => one.getAttribute('name'))).toEqual([
      'check',
      'gates.removal',
      'vignettes.removal',
    ]);
    for (const one of [root, ...suites]) expect(stated(one)).toEqual(count(one));
    // One error of the check, one refused gate, one failed vignette; what was not run is skipped, never passed.
    expect(count(root)).toEqual({ tests: 8, failures: 3, errors: 0, skipped: 1 });
    expect(all('testcase').every((one) => one.getAttribute('name') && one.getAttribute('classname'))).toBe(
      true,
    );
    expect(all('system-out').map(({ textContent }) => textContent)).toEqual([
      'accepted: small example – limits: 50 %',
      'changed by local policy: ask: expected x, came out as y',
    ]);
  });
});

describe('hostile text in a report', () => {
  const attack =
    '</p><script>alert(1)</script>"\'&<!--]]>\u0000\u0007\u202E\uFFFE\ud800 [x](javascript:1) ![y](http://z) @all `c` |\n# H\n- l';
  const shown = reported((text) => `${text} ${attack}`);

  it('stays text on a page', () => {
    const [plain, hostile] = [reported(), shown].map((one) => parsed(reportHtml(one)));
    const tags = (page: typeof plain) => page!.elements.map(({ tagName }) => tagName);
    expect(tags(hostile).filter((tag) => tag === 'script')).toEqual([]);
    expect([...new Set(tags(hostile))].sort()).toEqual([...new Set(tags(plain))].sort());
    expect(hostile!.text).toContain('<script>alert(1)</script>');
  });

  it('stays text in Markdown: no tag, link, picture, mention, code or heading of its own', () => {
    const text = reportMarkdown(shown);
    const own = reportMarkdown(reported((plain) => `${plain} more`));
    const headings = (of: string) => of.split('\n').filter((line) => line.startsWith('#')).length;
    expect(headings(text)).toBe(headings(own));
    expect(text.split('\n')).toHaveLength(own.split('\n').length);
    const unescaped = text.replace(/\\[^\w\s]/g, '');
    expect(unescaped).not.toMatch(/<|`|\]\(|!\[|@|:\/\//);
  });

  it('stays text in XML, and changes no count', () => {
    const [plain, hostile] = [reported(), shown].map((one) => suitesOf(reportJunit(one)));
    expect(hostile!.count(hostile!.root)).toEqual(plain!.count(plain!.root));
    expect(hostile!.all('script')).toEqual([]);
    expect(hostile!.all('failure')[0]!.getAttribute('message')).toContain('<script>alert(1)</script>');
  });
});
