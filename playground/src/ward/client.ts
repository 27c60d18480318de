import policies from 'virtual:policies';
import type { Case } from '@dwellset/core';
import { effect, signal } from '@preact/signals';
import { built, opened, settled } from '../bench/client.ts';
import type { WardNews, WardOrder, WardResult } from './shapes.ts';

/** Patient-days tried, and the seed they are drawn from: everybody sees the same ward. */
export const WARD_DAYS = 10_000;
const WARD_SEED = 1;
/** Typing is let finish before ten thousand are judged again. */
const DEBOUNCE_MS = 150;

export const wardTitle = signal('');
export const wardResult = signal<WardResult | undefined>(undefined);
export const wardFailure = signal<string | undefined>(undefined);
/** Share of the ward that has been tried by the newest rules; none while nothing runs. */
export const wardProgress = signal<{ readonly done: number; readonly of: number } | undefined>(undefined);
/** The result no longer stands for the newest rules. */
export const wardBehind = signal(true);
export const wardStopped = signal(false);

let worker: Worker | undefined;
let generation = 0;
let hasBase = false;
const order = (one: WardOrder): void => worker?.postMessage(one);

function start(): void {
  generation += 1;
  wardStopped.value = false;
  wardFailure.value = undefined;
  wardProgress.value = { done: 0, of: 1 };
  const base = hasBase ? undefined : opened.peek()?.sets.map(({ release }) => release);
  hasBase = true;
  const ours = Object.values(built.peek().releases);
  order({ kind: 'try', generation, ...(base && { base }), ours });
}

function drop(): void {
  if (!wardProgress.peek()) return;
  generation += 1;
  order({ kind: 'cancel' });
  wardProgress.value = undefined;
}

/** Ends the run; the figures of the run before stay, marked as behind. */
export function stopWard(): void {
  drop();
  wardStopped.value = true;
}
export const runWard = start;

function hear(news: WardNews): void {
  if (news.kind === 'ward') wardTitle.value = news.title;
  else if (news.kind === 'case') cases.get(news.row)?.(news);
  else if (news.kind === 'failed') {
    if (news.generation !== -1 && news.generation !== generation) return;
    wardFailure.value = news.message;
    wardProgress.value = undefined;
  } else if (news.generation !== generation) return;
  else if (news.kind === 'progress') wardProgress.value = news;
  else {
    wardResult.value = news.result;
    wardProgress.value = undefined;
    wardBehind.value = false;
  }
}

/** Begins when somebody first looks, in a worker of its own, so that the ledger never waits for it. */
export function openWard(): void {
  if (worker) return;
  worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
  worker.onmessage = ({ data }: MessageEvent<WardNews>) => hear(data);
  worker.onerror = ({ message }) => {
    wardFailure.value = message === '' ? 'the ward could not be started' : message;
    wardProgress.value = undefined;
  };
  const url = new URL(policies.ward!, document.baseURI).href;
  order({ kind: 'open', url, days: WARD_DAYS, seed: WARD_SEED });
  effect(() => {
    if (!opened.value) return;
    built.value;
    wardBehind.value = true;
    // The ledger comes first; its worker says when every set is built and judged. What a newer edit has overtaken ends.
    if (!settled.value) return drop();
    const timer = setTimeout(start, DEBOUNCE_MS);
    return () => clearTimeout(timer);
  });
}

const cases = new Map<number, (news: Extract<WardNews, { kind: 'case' }>) => void>();
/** One patient-day of the ward, made when it is asked for. */
export function wardCase(row: number): Promise<{ readonly name: string; readonly case: Case | undefined }> {
  openWard();
  return new Promise((resolve) => {
    cases.set(row, (news) => {
      cases.delete(row);
      resolve(news);
    });
    order({ kind: 'case', row });
  });
}
