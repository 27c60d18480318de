import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, patientsChanged, startBench } from './bench.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await startBench();
});
afterAll(async () => {
  await bench?.close();
});

/** Frames looked at after a keystroke, well beyond the time until everything is judged anew. */
const WATCHED = 45;

/**
 * In the page: does something between two frames, then reads in every frame how patients in view end. Answers in which
 * frame they first stood as they stood at last; 0 where nothing moved.
 */
const WATCH = `globalThis.framesUntilRight = async (rows, act) => {
  const read = () => [...document.querySelectorAll(rows)]
    .map((row) => [...row.querySelectorAll('th, td.cell')].map((cell) => cell.ariaLabel ?? cell.textContent).join()).join(';');
  const frame = () => new Promise(requestAnimationFrame);
  await frame();
  await new Promise((go) => setTimeout(go, 2));
  const seen = [read()];
  act();
  for (let count = 0; count < ${WATCHED}; count += 1) {
    await frame();
    // What a frame draws stands after its callbacks.
    await new Promise((go) => setTimeout(go));
    seen.push(read());
  }
  let right = seen.length - 1;
  while (right > 0 && seen[right - 1] === seen.at(-1)) right -= 1;
  return right;
};`;

const untilSettled = (page: Page) =>
  page
    .locator('.changes-line', { hasNotText: /so far|being tried/i })
    .first()
    .waitFor();

/** The frames of several keystrokes, quickest first: another process may hold any one of them up. */
async function framesOf(page: Page, rows: string, acts: readonly string[]): Promise<number[]> {
  await page.evaluate(WATCH);
  const frames: number[] = [];
  for (const act of acts) {
    await untilSettled(page);
    await page.waitForTimeout(300);
    frames.push(await page.evaluate<number>(`framesUntilRight('${rows}', () => { ${act} })`));
  }
  return frames.sort((a, b) => a - b);
}

test('after a keystroke in a local choice the patients beside it are right within two frames', async () => {
  const page = await bench.page('#/set/removal/choices', await bench.context());
  await page.getByRole('spinbutton', { name: 'Longest time without a review of need' }).fill('12');
  await patientsChanged(page);
  const type = (hours: number) => `
    const field = document.querySelector('input[aria-label="Longest time without a review of need"]');
    field.value = '${hours}';
    field.dispatchEvent(new Event('input', { bubbles: true }));`;
  const frames = await framesOf(page, 'tr.changed', [30, 12, 48, 12, 30].map(type));
  expect(frames[0]).toBeGreaterThan(0);
  expect(frames[1]).toBeLessThanOrEqual(2);
});

test('the ledger in view is right within two frames where a change reaches every patient', async () => {
  const page = await bench.page(
    '#/set/removal/rule/review-due',
    await bench.context({ viewport: { width: 1600, height: 1200 } }),
  );
  await page.getByRole('button', { name: 'Switch this rule off here' }).click();
  await patientsChanged(page);
  await page.goto(`${bench.url}#/set/removal`);
  await page
    .getByRole('gridcell', { name: /switched off/ })
    .nth(20)
    .waitFor();
  const press = (key: string) =>
    `document.body.dispatchEvent(new KeyboardEvent('keydown', { key: '${key}', ctrlKey: true, bubbles: true }));`;
  const frames = await framesOf(page, '.ledger tbody tr', ['z', 'y', 'z', 'y', 'z'].map(press));
  expect(frames[0]).toBeGreaterThan(0);
  expect(frames[1]).toBeLessThanOrEqual(2);
});
