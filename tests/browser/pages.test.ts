/// <reference types="node" />
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import { assessmentHtml, cautions, handbookHtml } from '@dwellset/wording';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { assessed, releases, shown } from '../wording/pages.ts';
import { launch } from './chromium.ts';

const folder = mkdtempSync(join(tmpdir(), 'pages-'));
const PAGES = {
  assessment: assessmentHtml(assessed('being-catheterised'), { releases }),
  handbook: handbookHtml(shown),
} as const;
/** A few entries of every kind: the check for barriers reads each element against each of its rules. */
const few = releases
  .filter(({ id }) => id === 'catheter-choice')
  .map((set) => ({
    ...set,
    rules: set.rules.slice(0, 5),
    facts: set.facts.slice(0, 8),
    parameters: set.parameters.slice(0, 4),
    evidence: set.evidence.slice(0, 8),
    sources: set.sources.slice(0, 4),
    codes: Object.fromEntries(Object.entries(set.codes).slice(0, 3)),
  }));
const SAMPLE = handbookHtml({ ...shown, releases: few });
/** The same of an assessment: the rules that speak, and a few of each set besides. */
const whole = assessed('being-catheterised');
const fewRules = assessmentHtml(
  {
    ...whole,
    ruleSets: whole.ruleSets.map((set) => ({
      ...set,
      rules: set.rules.filter(
        ({ id }, index) => index < 4 || whole.advice.some((one) => one.set === set.id && one.rule === id),
      ),
    })),
  },
  { releases },
);
const REMOVAL = assessmentHtml(assessed('after-operation'), { releases });
const FILES = { ...PAGES, sample: SAMPLE, removal: REMOVAL, fewRules } as const;
type Name = keyof typeof FILES;
const NAMES = Object.keys(PAGES) as (keyof typeof PAGES)[];

let browser: Browser;
beforeAll(async () => {
  for (const [name, text] of Object.entries(FILES)) writeFileSync(join(folder, `${name}.html`), text);
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Opens a page for one test. */
async function opened<T>(
  name: Name,
  options: BrowserContextOptions,
  use: (page: Page) => Promise<T>,
): Promise<T> {
  const context = await browser.newContext(options);
  try {
    const page = await context.newPage();
    await page.goto(pathToFileURL(join(folder, `${name}.html`)).href);
    return await use(page);
  } finally {
    await context.close();
  }
}

const unfoldAll = (page: Page) =>
  page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })");

/** How far the content is wider than the window. */
const overhang = (page: Page) =>
  page.evaluate<number>('document.documentElement.scrollWidth - document.documentElement.clientWidth');

/** A window of 1280 pixels at 200 % is one of 640. */
const WIDTHS = [
  ['360 px', { width: 360, height: 740 }],
  ['200 % zoom', { width: 640, height: 400 }],
  ['a desk', { width: 1280, height: 800 }],
] as const;

/** Of what repeats itself a hundred times a few are enough: the check reads every element against every rule. */
const unfoldSome = (page: Page) =>
  page.evaluate(`for (const kind of new Set([...document.querySelectorAll('details')].map((one) => one.className))) {
    [...document.querySelectorAll('details')].filter((one) => one.className === kind).slice(0, 4).forEach((one) => { one.open = true; });
  }`);

const READ = { assessment: 'fewRules', handbook: 'sample' } as const;

test.each([
  ['assessment', 'light'],
  ['assessment', 'dark'],
  ['handbook', 'light'],
  ['handbook', 'dark'],
] as const)('the %s has no barrier that can be found by machine, in %s', async (name, colorScheme) => {
  const found = await opened(READ[name], { colorScheme }, async (page) => {
    await unfoldSome(page);
    const check = new AxeBuilder({ page }).setLegacyMode(true);
    return (colorScheme === 'dark' ? check.withRules('color-contrast') : check).analyze();
  });
  expect(found.passes.length).toBeGreaterThan(colorScheme === 'dark' ? 0 : 10);
  expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
});

describe.each(NAMES)('the %s in a browser', (name) => {
  test.each(WIDTHS)('needs no sideways scrolling at %s, unfolded or not', async (_, viewport) => {
    const wider = await opened(name, { viewport }, async (page) => {
      const folded = await overhang(page);
      await unfoldAll(page);
      return [folded, await overhang(page)];
    });
    expect(wider).toEqual([0, 0]);
  });

  test('follows the wish for a dark screen', async () => {
    const ground = (colorScheme: 'light' | 'dark') =>
      opened(name, { colorScheme }, (page) =>
        page.evaluate<string>('getComputedStyle(document.documentElement).backgroundColor'),
      );
    expect([await ground('light'), await ground('dark')]).toEqual(['rgb(248, 244, 234)', 'rgb(25, 23, 20)']);
  });

  test('asks for nothing but itself and reports no fault', async () => {
    const seen: string[] = [];
    await opened(name, {}, async (page) => {
      page.on('request', (request) => seen.push(request.url()));
      page.on('console', (message) => seen.push(message.text()));
      page.on('pageerror', (error) => seen.push(error.message));
      await page.reload();
    });
    expect(seen).toEqual([pathToFileURL(join(folder, `${name}.html`)).href]);
  });

  test('prints on A4, black on white, with its cautions', async () => {
    const printed = await opened(name, { colorScheme: 'dark' }, async (page) => {
      const pdf = await page.pdf({ preferCSSPageSize: true });
      await page.emulateMedia({ media: 'print' });
      return {
        pdf,
        ground: await page.evaluate<string>('getComputedStyle(document.documentElement).backgroundColor'),
        ink: await page.evaluate<string>('getComputedStyle(document.documentElement).color'),
        text: await page.evaluate<string>('document.body.innerText'),
        wider: await overhang(page),
      };
    });
    expect(printed.pdf.subarray(0, 5).toString('latin1')).toBe('%PDF-');
    expect(printed.pdf.toString('latin1')).toMatch(/\/MediaBox \[0 0 59[45][.\d]* 84[12][.\d]*\]/);
    expect([printed.ground, printed.ink, printed.wider]).toEqual(['rgb(255, 255, 255)', 'rgb(0, 0, 0)', 0]);
    for (const caution of cautions) expect(printed.text).toContain(caution);
  });
});

test.each(NAMES)('every link of the %s leads to something that is seen, by key alone', async (name) => {
  const found = await opened(name, {}, async (page) => {
    const targets = await page.evaluate<string[]>(
      "[...new Set([...document.querySelectorAll('a')].map((one) => one.getAttribute('href')))]",
    );
    // Whatever a link leads to, its folds open on the way.
    const hidden = await page.evaluate<string[]>(`
      [...new Set([...document.querySelectorAll('a')].map((one) => one.hash))].filter((hash) => {
        location.hash = hash;
        const one = document.getElementById(decodeURIComponent(hash.slice(1)));
        return one === null || one.getClientRects().length === 0;
      })`);
    return { targets, hidden };
  });
  expect(found.targets.length).toBeGreaterThan(20);
  expect(found.targets.filter((one) => !one.startsWith('#'))).toEqual([]);
  expect(found.hidden).toEqual([]);
});

test('the tab key reaches every link and every fold, in the order in which they stand', async () => {
  const { reached, wanted } = await opened('assessment', {}, async (page) => {
    await page.evaluate(
      "document.querySelectorAll('a, summary').forEach((one, index) => { one.dataset.nth = index; })",
    );
    const seen = await page.evaluate<string[]>(
      "[...document.querySelectorAll('a, summary')].filter((one) => one.checkVisibility()).map((one) => one.dataset.nth)",
    );
    const order: (string | undefined)[] = [];
    for (let press = 0; press < seen.length; press += 1) {
      await page.keyboard.press('Tab');
      order.push(await page.evaluate<string | undefined>('document.activeElement.dataset.nth'));
    }
    return { reached: order, wanted: seen };
  });
  expect(wanted.length).toBeGreaterThan(50);
  expect(reached).toEqual(wanted);
});

test('the way from an advice to its reason, its local choice and its proof can be followed with the keyboard', async () => {
  const reached = await opened('removal', {}, async (page) => {
    const enter = async (from: string): Promise<string> => {
      await page.locator(from).first().focus();
      await page.keyboard.press('Enter');
      return (await page.locator(':target').textContent()) ?? '';
    };
    const reason = await enter('a[href^="#why:"]');
    const choice = await enter('#why ~ * a[href^="#choice:"]');
    await enter('a[href^="#rule:"]');
    const proof = page.locator(':target');
    await proof.locator('> summary').focus();
    await page.keyboard.press('Enter');
    return { reason, choice, open: await proof.getAttribute('open') };
  });
  expect(reached.reason).not.toBe('');
  expect(reached.choice).toMatch(/, as published$|here, .* as published$/);
  expect(reached.open).toBe('');
});

test('the outcome can still be told by its shape where the system chooses the colours', async () => {
  const drawn = await opened('assessment', { forcedColors: 'active' }, (page) =>
    page.evaluate<
      string[]
    >(`[...document.querySelectorAll('details.rule > summary > svg > :first-child')].map((one) => {
      const { fill, strokeDasharray } = getComputedStyle(one);
      return [one.tagName, fill === 'none' ? 'open' : 'filled', strokeDasharray === 'none' ? '' : 'dotted'].join(' ');
    })`),
  );
  const kinds = new Set(drawn.map((one) => one.trim()));
  for (const kind of ['rect filled', 'rect open', 'rect open dotted', 'circle open', 'path open']) {
    expect(kinds).toContain(kind);
  }
});
