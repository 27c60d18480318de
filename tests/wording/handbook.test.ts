import { conditionSentence, handbookHtml, statusWords } from '@dwellset/wording';
import { describe, expect, test } from 'vitest';
import { release } from './fixtures.ts';
import { releases, shown } from './pages.ts';
import { attribute, byId, elementsIn, linksIn, parsed, textOf } from './parsed.ts';

const page = parsed(handbookHtml(shown));

const entries = new Map<string, { readonly text: string; readonly links: readonly string[] }>();

function entry(id: string) {
  const known = entries.get(id);
  if (known) return known;
  const element = byId(page, id);
  if (!element) throw new Error(`no entry ${id}`);
  const made = { text: textOf(element), links: linksIn(elementsIn(element)) };
  entries.set(id, made);
  return made;
}

const flat = (text: string): string => text.replace(/\s+/g, ' ');
/** Links inside a sentence put spaces around their words. */
const loose = (text: string): string => flat(text).replace(/ /g, '');

const rules = releases.flatMap((set) => set.rules.map((rule) => ({ set, rule })));
const evidence = new Map(releases.flatMap((set) => set.evidence.map((one) => [one.id, one] as const)));

describe('the rules of a handbook', () => {
  test('each set says what it is for, for whom, and where it ends', () => {
    for (const { title, intendedUse, users, exclusions, limits } of releases) {
      expect(page.text).toContain(title);
      for (const said of [intendedUse, users, ...exclusions, ...limits])
        expect(page.text).toContain(flat(said));
    }
  });

  test('each rule stands with its conditions as sentences, its advice and its reason', () => {
    expect(rules.length).toBeGreaterThan(50);
    for (const { set, rule } of rules) {
      const { text } = entry(`rule:${set.id}/${rule.id}`);
      for (const condition of [rule.scope, rule.when, rule.expect, rule.excludes, rule.remarks]) {
        if (condition) expect(loose(text)).toContain(loose(conditionSentence(condition, set)));
      }
      expect(text).toContain(flat(rule.because));
      if (rule.advice && !rule.advice.summary.includes('{{'))
        expect(text).toContain(flat(rule.advice.summary));
      expect(text.includes('locked: no hospital may switch it off')).toBe(rule.locked === true);
    }
  });

  test('each rule leads to its evidence, the evidence to its sources, and both back', () => {
    for (const { set, rule } of rules) {
      const { links } = entry(`rule:${set.id}/${rule.id}`);
      for (const id of rule.evidence) {
        expect(links).toContain(`#evidence:${id}`);
        const behind = entry(`evidence:${id}`);
        expect(behind.links).toContain(`#rule:${set.id}/${rule.id}`);
        for (const { source } of evidence.get(id)?.from ?? []) {
          expect(behind.links).toContain(`#source:${source}`);
          expect(entry(`source:${source}`).links).toContain(`#evidence:${id}`);
        }
      }
    }
  });

  test('a rule leads to its hazards and a hazard to its rules and the vignettes that control it', () => {
    const hazardous = rules.filter(({ rule }) => rule.hazards?.length);
    expect(hazardous.length).toBeGreaterThan(0);
    for (const { set, rule } of hazardous) {
      for (const id of rule.hazards ?? []) {
        expect(entry(`rule:${set.id}/${rule.id}`).links).toContain(`#hazard:${id}`);
        const { text, links } = entry(`hazard:${id}`);
        expect(links).toContain(`#rule:${set.id}/${rule.id}`);
        for (const name of set.hazards.find((one) => one.id === id)?.controls ?? []) {
          expect(text).toContain(shown.controls?.get(name)?.title);
        }
      }
    }
  });

  test('a named condition in a sentence leads to what it means', () => {
    const { links } = entry('rule:catheter-choice/man-preferred-size');
    expect(links).toEqual(
      expect.arrayContaining(['#term:catheter-choice/man', '#term:catheter-choice/routine']),
    );
  });

  test('a text shows the local value in force, and names the fact that is filled in', () => {
    const { text, links } = entry('rule:maintenance-bundle/bag-emptied-in-time');
    expect(text).toMatch(
      /\[ ?hours since the bag was emptied ?\]|\[[a-z ]+\] h since it was emptied, here at most 6 h/,
    );
    expect(links).toEqual(
      expect.arrayContaining(['#choice:bag.empty-every', '#fact:drainage.hours-since-emptied']),
    );
  });
});

describe('the local choices of a handbook', () => {
  test('each shows its value in force, range, cautious side and positions', () => {
    const { text, links } = entry('choice:review.interval');
    expect(text).toContain('In force 12 h');
    expect(text).toContain('As published 24 h');
    expect(text).toContain('Range 12 to 72 h');
    expect(text).toContain('Cautious side The lower value');
    expect(text).toContain('Positions');
    expect(links).toContain('#evidence:MNT-01');
  });

  test('each leads to the rules that use it, however indirectly, and they lead back', () => {
    const { links } = entry('choice:review.interval');
    const own = links.filter((link) => link.startsWith('#rule:'));
    expect(own.length).toBeGreaterThan(0);
    for (const link of own) expect(entry(link.slice(1)).links).toContain('#choice:review.interval');
  });

  test('what the hospital changed stands at the choice and in a list of its own, with the reason', () => {
    const reason = 'Full bags were found on the floor in our ward audit.';
    expect(entry('choice:bag.empty-at').text).toContain(`50 % here, 67 % as published – ${reason}`);
    const chapter = page.elements.find((element) => attribute(element, 'aria-labelledby') === 'local');
    expect(chapter && textOf(chapter)).toContain(reason);
    expect(chapter && textOf(chapter)).toContain(
      'By Harrowmere General Hospital (invented), Lead nurse, infection prevention',
    );
    expect(entry('rule:maintenance-bundle/catheter-secured').text).toContain(
      'Unsecured catheters were our commonest finding.',
    );
  });

  test('tables stand cell by cell, and no entry is called no entry', () => {
    const { text, links } = entry('table:dwell.longest');
    expect(text).toContain('PVC (plastic) 7 days');
    expect(text).toContain('Any other days: no entry');
    expect(links).toContain('#rule:catheter-choice/dwell-too-short');
  });
});

describe('what a handbook owes to honesty', () => {
  test('everything from memory is on a list of its own, and nothing else', () => {
    const chapter = page.elements.find((element) => attribute(element, 'aria-labelledby') === 'memory');
    const listed = linksIn(chapter ? elementsIn(chapter) : [])
      .filter((link) => link.startsWith('#evidence:'))
      .map((link) => link.slice('#evidence:'.length));
    const fromMemory = [...evidence.values()].filter(({ from }) =>
      from.some(({ status }) => status === 'memory'),
    );
    expect(fromMemory.length).toBeGreaterThan(0);
    expect(listed.sort()).toEqual(fromMemory.map(({ id }) => id).sort());
  });

  test('each statement shows how it is known, source by source', () => {
    for (const [id, { from }] of evidence) {
      const { text } = entry(`evidence:${id}`);
      for (const { status, grade } of from) {
        expect(text).toContain(statusWords(status));
        if (grade !== 'ungraded') expect(text).toContain(`grade ${flat(grade)}`);
      }
    }
  });

  test('each fact that a rule reads stands with its question', () => {
    for (const { id, question } of releases.flatMap(({ facts }) => facts)) {
      expect(entry(`fact:${id}`).text).toContain(flat(question));
    }
  });

  test('rules that nobody adopted are said to be for trying out', () => {
    const { text } = parsed(handbookHtml({ releases: [release], digests: new Map() }));
    expect(text).toContain('Not adopted by any hospital: for trying out, not for use with patients.');
    expect(text).toContain('Rules draft: removal 0.1.0');
    expect(text).toContain('Review overdue');
  });

  test('a release other than the adopted one is not called adopted', () => {
    const digests = new Map([...shown.digests].map(([id]) => [id, '0'.repeat(64)]));
    const { text } = parsed(handbookHtml({ ...shown, digests }));
    expect(text).toContain('another text than the one adopted by Harrowmere General Hospital (invented)');
    expect(text).not.toContain('draft, adopted by');
  });
});
