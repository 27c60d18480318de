import policies from 'virtual:policies';
import type { Case } from '@dwellset/core';
import { signal } from '@preact/signals';
import { Background } from '../background.ts';
import { built, opened } from '../bench/client.ts';
import type { WardNews, WardOrder, WardResult } from './shapes.ts';

/** Patient-days tried, and the seed they are drawn from: everybody sees the same ward. */
export const WARD_DAYS = 10_000;
const WARD_SEED = 1;

export const wardTitle = signal('');
export const wardResult = signal<WardResult | undefined>(undefined);

let hasBase = false;
const order = (one: WardOrder): WardOrder => one;

export const ward = new Background<WardNews>({
  worker: () => new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' }),
  open: () => {
    const url = new URL(policies.ward!, document.baseURI).href;
    return order({ kind: 'open', url, days: WARD_DAYS, seed: WARD_SEED });
  },
  begin: (generation) => {
    const base = hasBase ? undefined : opened.peek()?.sets.map(({ release }) => release);
    hasBase = true;
    const ours = Object.values(built.peek().releases);
    return order({ kind: 'try', generation, ...(base && { base }), ours });
  },
  hear: (news) => {
    if (news.kind === 'ward') wardTitle.value = news.title;
    else if (news.kind === 'case') cases.get(news.row)?.(news);
    else wardResult.value = news.result;
  },
});

const cases = new Map<number, (news: Extract<WardNews, { kind: 'case' }>) => void>();
/** One patient-day of the ward, made when it is asked for. */
export function wardCase(row: number): Promise<{ readonly name: string; readonly case: Case | undefined }> {
  ward.open();
  return new Promise((resolve) => {
    cases.set(row, (news) => {
      cases.delete(row);
      resolve(news);
    });
    ward.order(order({ kind: 'case', row }));
  });
}
