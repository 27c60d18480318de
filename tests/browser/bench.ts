/// <reference types="node" />
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { type PreviewServer, preview } from 'vite';
import { inject, onTestFinished } from 'vitest';
import { launch } from './chromium.ts';

const root = fileURLToPath(new URL('../../playground', import.meta.url));

/** The built test bench on a server of its own, in a real browser. */
export interface Bench {
  readonly url: string;
  readonly browser: Browser;
  /** The folder that is served. */
  readonly folder: string;
  /** For one test: closed when that ends. */
  context(options?: BrowserContextOptions): Promise<BrowserContext>;
  /** A page at an address of the bench, once the rules are read; what the browser complains about lands in `complaints`. */
  page(address: string, context: BrowserContext): Promise<Page>;
  readonly complaints: string[];
  /** Ends the server and leaves the browser. */
  stopServer(): Promise<void>;
  close(): Promise<void>;
}

export async function startBench(): Promise<Bench> {
  // A copy: one of the tests puts a newer build in the place of this one.
  const outDir = mkdtempSync(join(tmpdir(), 'bench-'));
  cpSync(inject('builtBench'), outDir, { recursive: true });
  const server: PreviewServer = await preview({
    root,
    logLevel: 'error',
    build: { outDir },
    preview: { port: 0, host: '127.0.0.1' },
  });
  const url = server.resolvedUrls?.local[0];
  if (url === undefined) throw new Error('the built bench is served nowhere');
  const browser = await launch();
  const complaints: string[] = [];
  const { httpServer } = server;
  const stopServer = () =>
    new Promise<void>((resolve) => {
      if (!httpServer.listening) return resolve();
      httpServer.close(() => resolve());
      // The browser keeps its connections open; a server that is gone does not.
      if ('closeAllConnections' in httpServer) httpServer.closeAllConnections();
    });
  return {
    url,
    browser,
    folder: outDir,
    complaints,
    context: async (options = {}) => {
      const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options });
      context.setDefaultTimeout(60_000);
      // A page left open goes on judging thousands of patients beside the next test.
      onTestFinished(() => context.close());
      return context;
    },
    page: async (address, context) => {
      const page = await context.newPage();
      page.on('pageerror', (error) => complaints.push(error.message));
      page.on('console', (message) => {
        if (message.type() === 'error') complaints.push(message.text());
      });
      await page.goto(url + address);
      await page.locator('main h1:not(:text("Test bench"))').waitFor();
      return page;
    },
    stopServer,
    close: async () => {
      await browser.close();
      await stopServer();
      rmSync(outDir, { recursive: true, force: true });
    },
  };
}

/** The rules that look at colours, sizes and places; the others look at the document, which no window changes. */
const LOOKS = ['color-contrast', 'link-in-text-block', 'scrollable-region-focusable', 'target-size'];

/** What axe finds, as one line a rule: by all of its rules, or by those that another look can break. */
export async function barriers(page: Page, rules: 'all' | 'looks' = 'all'): Promise<string[]> {
  // Of what passes nothing is read, and there are no frames of other origins to bring together: half the time.
  const check = new AxeBuilder({ page }).options({ resultTypes: ['violations'] }).setLegacyMode(true);
  if (rules === 'looks') check.withRules(LOOKS);
  const { violations } = await check.analyze();
  return violations.map(
    ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(' | ')}`,
  );
}

/** How many patients the line above the ledger says change; waits until there is such a line. */
export async function patientsChanged(page: Page): Promise<number> {
  const line = page.locator('.changes-line strong').first();
  await line.filter({ hasText: /^\d+ patients? chang/ }).waitFor();
  return Number.parseInt((await line.textContent()) ?? '', 10);
}

/** The text of a file that a button saves. */
export async function savedBy(page: Page, button: string | RegExp): Promise<string> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: button }).click(),
  ]);
  return readFileSync(await download.path(), 'utf8');
}
