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
type Name = keyof typeof PAGES;
const NAMES = Object.keys(PAGES) as Name[];

let browser: Browser;
beforeAll(async () => {
  for (const name of NAMES) writeFileSync(join(folder, `${name}.html`), PAGES[name]);
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

describe.each(NAMES)('the %s in a browser', (name) => {
  test.each(['light', 'dark'] as const)(
    'has no barrier that can be found by machine, in %s',
    async (colorScheme) => {
      const found = await opened(name, { colorScheme }, async (page) => {
        await unfoldAll(page);
        return new AxeBuilder({ page }).analyze();
      });
      expect(found.passes.length).toBeGreaterThan(10);
      expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    },
  );

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

test.each(WIDTHS)(
  'the cautions of an assessment stay in sight at %s, wherever one reads',
  async (_, viewport) => {
    const inSight = await opened('assessment', { viewport }, (page) =>
      page.evaluate<boolean[]>(`[0, 0.5, 1].map((share) => {
      scrollTo(0, share * document.documentElement.scrollHeight);
      const box = document.querySelector('footer').getBoundingClientRect();
      return box.top >= 0 && box.bottom <= innerHeight + 0.5;
    })`),
    );
    expect(inSight).toEqual([true, true, true]);
  },
);

test('the way from an advice to its reason and to its proof can be followed with the keyboard', async () => {
  const reached = await opened('assessment', {}, async (page) => {
    const why = page.locator('a[href^="#why:"]').first();
    await why.focus();
    await page.keyboard.press('Enter');
    const reason = await page.locator(':target').innerText();
    await page.locator(':target ~ dl a[href^="#rule:"]').focus();
    await page.keyboard.press('Enter');
    const proof = page.locator(':target');
    await proof.locator('> summary').focus();
    await page.keyboard.press('Enter');
    return {
      reason,
      tag: await proof.evaluate<string>('(one) => one.tagName'),
      open: await proof.getAttribute('open'),
    };
  });
  expect(reached.reason).toContain('Allergies asked before the gel');
  expect([reached.tag, reached.open]).toEqual(['DETAILS', '']);
});
