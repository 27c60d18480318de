// Draws the pictures of the README from the built page.
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { build, preview } from 'vite';

const root = fileURLToPath(new URL('.', import.meta.url));
await build({ root, logLevel: 'error' });
const server = await preview({ root, logLevel: 'error', preview: { port: 0, host: '127.0.0.1' } });
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM_PATH || '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
const page = await browser.newPage({ viewport: { width: 1360, height: 860 }, reducedMotion: 'reduce' });
await page.goto(`${server.resolvedUrls.local[0]}#/set/removal/choices`);
await page.getByRole('spinbutton', { name: 'Longest time without a review of need' }).fill('12');
await page
  .getByText(/read differently/)
  .first()
  .waitFor();
await page.getByRole('link', { name: 'Ledger', exact: true }).click();
await page.getByLabel('Order').selectOption('changed');
await page.locator('td.inked').first().waitFor();
await page.screenshot({ path: `${root}pictures/ledger.png` });
await page.locator('td.inked').first().click();
await page.getByRole('region', { name: /^For the patient/ }).waitFor();
await page.evaluate(() => document.activeElement?.blur());
await page.screenshot({ path: `${root}pictures/rule.png` });
await browser.close();
await server.close();
