import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Bench, barriers, startBench } from './bench.ts';
import { deployNewer } from './deploy.ts';

const INTERVAL = { name: 'Longest time without a review of need' } as const;

let bench: Bench;
beforeAll(async () => {
  bench = await startBench();
}, 120_000);
afterAll(async () => {
  await bench?.close();
});

/** The figures in the line that says how many of the ward change. */
async function changed(page: Page): Promise<{ patients: number; days: number }> {
  const line = page.locator('.ward .changes-line strong');
  await line.filter({ hasText: /of 10,000 patient-days$/ }).waitFor();
  const [, patients = '', days = ''] =
    /^([\d,]+) of .* on ([\d,]+) of/.exec((await line.textContent()) ?? '') ?? [];
  return { patients: Number(patients.replace(',', '')), days: Number(days.replace(',', '')) };
}

describe('whom a change affects on an invented ward', () => {
  test('a newcomer makes the review interval 12 hours, reads how many change, and opens one of them', async () => {
    const context = await bench.context();
    const page = await bench.page('', context);
    await page.getByRole('link', { name: 'Local choices', exact: true }).click();
    await page.getByRole('spinbutton', INTERVAL).fill('12');
    await page.getByRole('link', { name: 'Whom it affects' }).click();
    await page.getByText('they are no forecast for any hospital').waitFor();
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByText(/^Stopped/).waitFor();
    await page.getByRole('button', { name: 'Try the ward' }).click();
    const found = await changed(page);
    expect(found.patients).toBeGreaterThan(0);
    expect(found.days).toBeGreaterThanOrEqual(found.patients);
    const bars = (side: string) => page.locator(`.spread .${side} .ct-bar`).count();
    expect(await bars('published')).toBeGreaterThan(2);
    expect(await bars('ours')).toBe(await bars('published'));
    expect(await barriers(page)).toEqual([]);
    const rule = page.locator('.moved').first();
    const title = (await rule.locator('h3').textContent()) ?? '';
    await rule.locator('.examples a').first().click();
    await page.locator('.patient .changes-line', { hasText: title }).waitFor();
    expect(bench.complaints).toEqual([]);
  });
});

describe('what is wrong with rules by themselves', () => {
  test('a rule that can never apply any more is found beside what was accepted, and a patient shows what is', async () => {
    const page = await bench.page('#/set/removal/rule/scan-now', await bench.context());
    const text = page.getByRole('textbox', { name: 'Text', exact: true });
    const drained = (value: boolean) =>
      `{ "fact": "voiding.since-removal", "operator": "equal", "value": ${value} }`;
    const before = await text.inputValue();
    await text.fill(
      before.replace(
        /"when": \{ "condition": "[^"]+" \}/,
        `"when": { "all": [${drained(true)}, ${drained(false)}] }`,
      ),
    );
    await page.getByRole('link', { name: 'Findings', exact: true }).click();
    await page.getByRole('heading', { name: 'By your changes' }).waitFor();
    await page.getByText('"No void after removal" (scan-now) can never apply', { exact: false }).waitFor();
    await page
      .getByRole('status')
      .filter({ hasText: 'left open' })
      .filter({ hasNotText: 'so far' })
      .waitFor();
    await page.getByText(/found and accepted, with the reason$/).click();
    expect(await barriers(page)).toEqual([]);
    await page.getByRole('link', { name: 'A patient who shows it' }).first().click();
    await page.locator('.assessment').waitFor();
    const told = await page.locator('.assessment .advice').first().textContent();
    await page.reload();
    await page.locator('.assessment').waitFor();
    expect(await page.locator('.assessment .advice').first().textContent()).toBe(told);
  });
});

test('a newer build waits until somebody takes it, then every page is of it alone, and the draft stays', async () => {
  const [before, after] = ['Review, removal and follow-up', 'Review, removal and what follows'];
  const context = await bench.context();
  const page = await bench.page('#/set/removal/choices', context);
  await page.getByRole('spinbutton', INTERVAL).fill('12');
  await page.getByText('kept in this browser').waitFor();
  await page.evaluate('navigator.serviceWorker.ready.then(() => undefined)');
  deployNewer(bench.folder, before, after);

  await page.reload();
  await page.getByText('A newer test bench lies ready; your draft stays.').waitFor();
  const second = await bench.page('#/set/removal', context);
  // What the server has is another build by now; until that is asked for, pages are of the older one.
  await second.getByRole('heading', { level: 1, name: before, exact: true }).waitFor();
  const scripts = (of: Page) =>
    of.evaluate<string[]>(
      "performance.getEntriesByType('resource').map(({ name }) => name).filter((name) => /\\/(assets|policies)\\//.test(name))",
    );
  expect((await scripts(second)).filter((name) => name.includes('.newer.'))).toEqual([]);

  await page.getByRole('button', { name: 'Load it' }).click();
  await second.getByRole('heading', { level: 1, name: after, exact: true }).waitFor();
  await page.bringToFront();
  // The newer build has other words in the rules, and the change was not made on those.
  await page.locator('.changes-line', { hasText: 'Not tried yet' }).waitFor();
  expect(await page.getByRole('spinbutton', INTERVAL).inputValue()).toBe('12');
  for (const one of [page, second]) {
    const loaded = await scripts(one);
    expect(loaded.length).toBeGreaterThan(5);
    expect(loaded.filter((name) => !name.includes('.newer.'))).toEqual([]);
  }
  expect(await page.evaluate<number>('caches.keys().then((keys) => keys.length)')).toBe(1);
});

test('reloads without a server, with the draft, once it has been opened', async () => {
  const context = await bench.context();
  const page = await bench.page('', context);
  await page.getByRole('link', { name: 'Local choices', exact: true }).click();
  await page.getByRole('spinbutton', INTERVAL).fill('12');
  await page.getByText('kept in this browser').waitFor();
  await page.evaluate('navigator.serviceWorker.ready.then(() => undefined)');
  await bench.stopServer();
  const { length } = bench.complaints;
  await page.reload();
  await page.getByRole('link', { name: 'Our changes (1)' }).waitFor();
  await page.getByRole('link', { name: 'Ledger', exact: true }).click();
  await page.locator('.changes-line strong', { hasText: /^\d+ patients? chang/ }).waitFor();
  await page.getByRole('link', { name: 'A patient', exact: true }).click();
  await page.getByRole('heading', { name: 'A patient', exact: true }).waitFor();
  expect(bench.complaints.slice(length)).toEqual([]);
});
