import type { RuleResult } from '@dwellset/core';
import { assessmentHtml, assessmentText, cautions, handbookHtml } from '@dwellset/wording';
import { describe, expect, test } from 'vitest';
import { advice, assessment, fact, release, rule, ruleSet } from './fixtures.ts';
import { assessed, releases, shown, withEvery } from './pages.ts';
import { attribute, byId, elementsIn, hasClass, linksIn, parsed, textOf } from './parsed.ts';

const CASE = 'being-catheterised';
const page = parsed(assessmentHtml(assessed(CASE), { releases }));
const handbook = parsed(handbookHtml(shown));
const bothPages = [
  ['the assessment', page],
  ['the handbook', handbook],
] as const;

describe.each(bothPages)('%s as a page', (_, { errors, elements, text }) => {
  test('is HTML that a browser has nothing to put right in', () => {
    expect(errors).toEqual([]);
  });

  test('has one id for one element, and no link that leads nowhere', () => {
    const ids = elements.flatMap((element) => attribute(element, 'id') ?? []);
    expect(new Set(ids).size).toBe(ids.length);
    const links = linksIn(elements);
    expect(links.length).toBeGreaterThan(0);
    expect(links.filter((link) => !link.startsWith('#') || !ids.includes(link.slice(1)))).toEqual([]);
    const labels = elements.flatMap((element) => attribute(element, 'aria-labelledby') ?? []);
    expect(labels.filter((id) => !ids.includes(id))).toEqual([]);
  });

  test('loads nothing and runs nothing', () => {
    const used = new Set(elements.map(({ tagName }) => tagName));
    for (const tag of [
      'script',
      'link',
      'img',
      'image',
      'use',
      'iframe',
      'object',
      'embed',
      'form',
      'base',
    ]) {
      expect(used).not.toContain(tag);
    }
    const attributes = elements.flatMap(({ attrs }) => attrs.map(({ name }) => name));
    expect(attributes.filter((name) => /^on|^src|^style$|^srcset|^xlink|^action|^ping/.test(name))).toEqual(
      [],
    );
    const styles = elements.filter(({ tagName }) => tagName === 'style');
    expect(styles).toHaveLength(1);
    const css = styles[0]?.childNodes.map((node) => ('value' in node ? node.value : '')).join('') ?? '';
    expect(css).toContain('@media print');
    expect(css).not.toMatch(/url\(|@import|@font-face|https?:|image-set|expression/i);
    const policy = elements.find((one) => attribute(one, 'http-equiv') === 'Content-Security-Policy');
    expect(policy && attribute(policy, 'content')).toContain("default-src 'none'");
  });

  test('carries every caution on top and at the bottom, unfolded, and at the foot of every printed page', () => {
    expect(cautions.length).toBeGreaterThan(0);
    for (const place of ['header', 'footer']) {
      const found = elements.find(({ tagName }) => tagName === place);
      for (const caution of cautions) expect(found && textOf(found)).toContain(caution);
    }
    expect(text).toContain(cautions.join(' '));
    const style = elements.find(({ tagName }) => tagName === 'style')?.childNodes[0];
    const css = style && 'value' in style ? style.value : '';
    const printed = /@bottom-left \{\s*content: '([^']*)'/.exec(css)?.[1] ?? '';
    const read = printed.replace(/\\([0-9a-f]+) /g, (_all, code: string) =>
      String.fromCodePoint(Number.parseInt(code, 16)),
    );
    expect(read).toBe(cautions.join(' '));
  });

  test('has one title, and headings that skip no level', () => {
    const levels = elements.flatMap(({ tagName }) => (/^h[1-6]$/.test(tagName) ? [Number(tagName[1])] : []));
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    expect(levels[0]).toBe(1);
    levels.slice(1).forEach((level, index) => {
      expect(level - (levels[index] ?? 0)).toBeLessThanOrEqual(1);
    });
  });
});

describe('hostile texts stay texts', () => {
  const HOSTILE = ` </style><script>alert(1)</script><img src=x onerror=alert(2)>"' onload='x' & &lt; {{x}} \u202egnp\u0000`;
  const SEEN = `</style><script>alert(1)</script><img src=x onerror=alert(2)>"' onload='x' & &lt; {{x}} gnp`;

  const shape = (source: string) =>
    parsed(source).elements.map(
      ({ tagName, attrs }) =>
        `${tagName} ${attrs
          .map(({ name }) => name)
          .sort()
          .join(' ')}`,
    );

  test('in an assessment they add no element and no attribute, and are shown as they are', () => {
    const plain = assessed(CASE);
    const hostile = withEvery(plain, HOSTILE);
    const source = assessmentHtml(hostile, { releases: withEvery(releases, HOSTILE) });
    expect(shape(source)).toEqual(shape(assessmentHtml(plain, { releases })));
    expect(parsed(source).errors).toEqual([]);
    expect(parsed(source).text.split(SEEN).length).toBeGreaterThan(200);
  });

  test('in a handbook too', () => {
    const amended = releases.filter(({ id }) => id === 'removal' || id === 'insertion-bundle');
    // A place in a text becomes a link, which is no element too many: the plain one gets it as well.
    const made = (suffix: string) =>
      handbookHtml({
        ...withEvery({ releases: amended, ...(shown.adoption && { adoption: shown.adoption }) }, suffix),
        digests: shown.digests,
      });
    const source = made(HOSTILE);
    expect(shape(source)).toEqual(shape(made(' plain')));
    expect(parsed(source).errors).toEqual([]);
    expect(parsed(source).text.split('<script>alert(1)</script>').length).toBeGreaterThan(1000);
  });

  test('a name that no id can hold still gets one id, and its links find it', () => {
    const odd = 'a"b <c>&#39; d/e';
    const own = assessment({
      ruleSets: [ruleSet({ rules: [rule(odd, { outcome: 'applies' })] })],
      advice: [advice(odd)],
    });
    const { elements, errors } = parsed(assessmentHtml(own));
    expect(errors).toEqual([]);
    const ids = elements.flatMap((element) => attribute(element, 'id') ?? []);
    expect(linksIn(elements).map((link) => ids.includes(link.slice(1)))).toEqual([true, true]);
  });

  test('an object that looks like markup is no markup', () => {
    const summary = { source: '<script>alert(1)</script>' } as unknown as string;
    const own = assessment({ ruleSets: [ruleSet({ rules: [] })], advice: [advice('x', { summary })] });
    expect(parsed(assessmentHtml(own)).elements.map(({ tagName }) => tagName)).not.toContain('script');
  });
});

describe('an assessment as a page', () => {
  test('reads do, why, ask, proof from top to bottom', () => {
    const order = page.elements.flatMap(({ tagName, ...element }) =>
      tagName === 'h2' ? [textOf({ tagName, ...element })] : [],
    );
    const wanted = [
      'Do',
      'Note',
      'What it comes to',
      'Why',
      'Not known: ask',
      'Local choices',
      'Proof, rule by rule',
      'About these rule sets',
    ];
    expect(order.filter((heading) => wanted.includes(heading))).toEqual(wanted);
  });

  test('says everything that the text says, in the same words', () => {
    const own = assessed(CASE);
    const lines = assessmentText(own, { releases, width: 5000 }).split('\n');
    const body = lines.slice(
      lines.indexOf('Do'),
      lines.findIndex((line) => line.includes('@dwellset/core')),
    );
    const plain = page.text.toLowerCase();
    const missing = body
      .map((line) =>
        line
          .trim()
          .replace(
            /^(Why|Found|Steps|Detail|Options|Source|Mind|Choice|Local|Decides|Changed|Sources|May be|Cautious|Folded|Answer|Rule|About|Not met|Not recorded|Not known) {2,}|^In the hand: |^(\d+|–)\.? +/,
            '',
          ),
      )
      .flatMap((line) => line.split(/ [·–] |; /))
      .filter((said) => said !== '' && !plain.includes(said.toLowerCase()));
    expect(body.length).toBeGreaterThan(40);
    expect(missing).toEqual([]);
  });

  test('a set that comes to nothing in this patient has no heading there', () => {
    const found = parsed(
      assessmentHtml(assessment({ ruleSets: [ruleSet({ shape: 'decision', rules: [] })] })),
    );
    expect(found.text).not.toContain('What it comes to');
  });

  test('never shows the id of the case', () => {
    expect(assessed(CASE).case.id).toBe('harrowmere-being-catheterised');
    expect(assessmentHtml(assessed(CASE), { releases })).not.toContain('harrowmere-being-catheterised');
    expect(assessmentHtml(assessment(), {})).not.toContain('secret-case-id');
  });

  test('holds the whole statement of reasons of every rule, folded', () => {
    const statements = page.elements.filter(
      (element) => hasClass(element, 'rule') && element.tagName === 'details',
    );
    expect(statements).toHaveLength(releases.flatMap(({ rules }) => rules).length);
    expect(statements.filter((element) => attribute(element, 'open') !== undefined)).toEqual([]);
    const statement = byId(page, 'rule:insertion-bundle/urine-seen');
    expect(statement && textOf(statement)).toContain(
      'What has to hold not known urine has come through the catheter – nobody supplied it decides',
    );
  });

  test.each([
    ['applies', undefined, 'filled', 'circle', 'applies'],
    ['does-not-apply', undefined, 'open', 'circle', 'does not apply'],
    ['undetermined', undefined, 'dotted', 'circle', 'not yet decided'],
    ['switched-off', undefined, 'struck', 'circle', 'switched off by local choice'],
    ['does-not-apply', 'met', 'filled', 'rect', 'met'],
    ['applies', 'not-met', 'open', 'rect', 'not met'],
    ['undetermined', 'not-recorded', 'dotted', 'rect', 'not recorded'],
  ] as const)('%s %s is drawn %s, with its words beside it', (outcome, check, drawn, tag, words) => {
    const own: RuleResult = rule('x', { outcome, ...(check && { check }) });
    const found = parsed(assessmentHtml(assessment({ ruleSets: [ruleSet({ rules: [own] })] })));
    const summary = byId(found, 'rule:removal/x')?.childNodes[0];
    if (!summary || !('tagName' in summary)) throw new Error('no summary');
    const mark = elementsIn(summary).find(({ tagName }) => tagName === 'svg');
    const inside = mark ? elementsIn(mark) : [];
    expect(mark && attribute(mark, 'aria-hidden')).toBe('true');
    expect(inside[0]?.tagName).toBe(tag);
    expect(inside[0] && hasClass(inside[0], drawn)).toBe(true);
    expect(textOf(summary)).toBe(`x ${words}`);
  });

  test('out of scope is a dash, with its words beside it', () => {
    const own = rule('x', { outcome: 'not-in-scope' });
    const found = parsed(assessmentHtml(assessment({ ruleSets: [ruleSet({ rules: [own] })] })));
    const summary = byId(found, 'rule:removal/x')?.childNodes[0];
    if (!summary || !('tagName' in summary)) throw new Error('no summary');
    expect(
      elementsIn(summary)
        .map(({ tagName }) => tagName)
        .slice(0, 2),
    ).toEqual(['svg', 'path']);
    expect(textOf(summary)).toBe('x not in scope');
  });

  test('every source stands with its status, and memory is called memory', () => {
    const { ruleSets } = assessment({ ruleSets: [ruleSet({ rules: [rule('x', { outcome: 'applies' })] })] });
    const [shownEvidence] = advice('x').evidence;
    const evidence = [
      {
        ...shownEvidence!,
        status: 'memory' as const,
        from: shownEvidence!.from.map((item) => ({ ...item, status: 'memory' as const })),
      },
    ];
    const own = assessment({ ruleSets, advice: [advice('x', { evidence, memoryOnly: true })] });
    const { text } = parsed(assessmentHtml(own));
    expect(text).toContain('grade B · from memory, not checked');
    expect(text).toContain('Mind this advice rests on memory alone, not checked');
  });

  test('an assessment without advice says so', () => {
    const own = assessment({ counts: { applies: 0, undetermined: 2, notInScope: 3 } });
    const { text } = parsed(assessmentHtml(own));
    expect(text).toContain('Do No rule applied; 2 could not be decided, 3 not in scope.');
    expect(text).toContain(
      'Not known: ask 2 rules could not be decided, and nothing is left that can be asked.',
    );
    expect(text).toContain('Not adopted by any hospital: for trying out, not for use with patients.');
  });

  test('what was found is shown in the words of the ward', () => {
    const reading = fact(
      { fact: 'urine.scan', value: 480, unit: 'mL', from: 'the scanner' },
      { operator: 'greaterThan', expected: 400 },
    );
    const own = assessment({
      ruleSets: [ruleSet({ rules: [rule('x', { outcome: 'applies', reasons: { when: reading } })] })],
      advice: [advice('x')],
    });
    const { text } = parsed(assessmentHtml(own, { releases: [release] }));
    expect(text).toContain('Found bladder scan: 480 mL (from the scanner)');
    expect(text).toContain(
      'true bladder scan is more than 400 mL – found: 480 mL (from the scanner) decides',
    );
  });
});
