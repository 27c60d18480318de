import { signal } from '@preact/signals';
import { Background } from '../background.ts';
import { addresses, built, opened, trying } from '../bench/client.ts';
import type { FindingsNews, FindingsOrder, FoundHere } from './shapes.ts';

/** What the newest run has found so far. */
export const found = signal<readonly FoundHere[]>([]);

const order = (one: FindingsOrder): FindingsOrder => one;

export const findings = new Background<FindingsNews>({
  worker: () => new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' }),
  open: () => order({ kind: 'open', addresses: addresses() }),
  begin: (generation) => {
    const changed = Object.keys(built.peek().releases);
    const all = opened.peek()?.sets.map(({ id }) => id) ?? [];
    const sets = [...changed, ...all.filter((id) => !changed.includes(id))];
    found.value = [];
    return order({ kind: 'analyse', generation, amendment: trying.peek(), sets, changed });
  },
  hear: (news) => {
    found.value = [...found.value, ...news.found];
  },
});
