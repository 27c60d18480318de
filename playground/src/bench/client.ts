import policies from 'virtual:policies';
import { computed, effect, signal } from '@preact/signals';
import { draft } from '../draft/state.ts';
import { toAmendment } from '../draft/toAmendment.ts';
import { setInView } from '../route.ts';
import { Ledger } from './ledger.ts';
import type { BuiltSets, News, Opened, Order, PublishedSet, QuestionName, Questions } from './shapes.ts';

export const opened = signal<Opened | undefined>(undefined);
export const failure = signal<string | undefined>(undefined);
export const built = signal<BuiltSets>({ refused: [], releases: {} });
/** False while patients are still being judged by the newest rules. */
export const settled = signal(false);

const ledgers = new Map<string, Ledger>();
export function ledgerOf(set: string): Ledger {
  const known = ledgers.get(set);
  if (known) return known;
  const made = new Ledger(set);
  ledgers.set(set, made);
  return made;
}

const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
const order = (one: Order): void => worker.postMessage(one);

const waiting = new Map<number, { resolve: (value: never) => void; reject: (error: Error) => void }>();
let asked = 0;

/** Asks the worker; rejects where it cannot answer. */
export function ask<N extends QuestionName>(
  name: N,
  what: Questions[N]['ask'],
): Promise<Questions[N]['answer']> {
  asked += 1;
  const id = asked;
  order({ kind: 'ask', id, name, ask: what });
  return new Promise((resolve, reject) =>
    waiting.set(id, { resolve: resolve as (value: never) => void, reject }),
  );
}

const sets: PublishedSet[] = [];
worker.onmessage = ({ data: news }: MessageEvent<News>) => {
  // Of changes that were taken back in the meantime.
  if (isOfOurs(news) && trying.peek() === undefined) return;
  switch (news.kind) {
    case 'set':
      sets.push(news.set);
      break;
    case 'opened':
      opened.value = { ...news.opened, sets };
      break;
    case 'failed':
      failure.value = news.message;
      break;
    case 'patients':
      ledgerOf(news.set).patients(news.rows);
      break;
    case 'built':
      if (news.generation === generation) built.value = news.built;
      break;
    case 'cells':
      ledgerOf(news.set).cells(news);
      break;
    case 'some':
      ledgerOf(news.set).some(news);
      break;
    case 'same':
      ledgerOf(news.set).same();
      break;
    case 'missing':
      ledgerOf(news.set).missing();
      break;
    case 'texts':
      ledgerOf(news.set).texts(news);
      break;
    case 'settled':
      if (news.generation === generation) settled.value = true;
      break;
    case 'answer':
      waiting.get(news.id)?.resolve(news.value as never);
      waiting.delete(news.id);
      break;
    case 'unanswered':
      waiting.get(news.id)?.reject(new Error(news.message));
      waiting.delete(news.id);
      break;
  }
};
worker.onerror = (event) => {
  failure.value = event.message === '' ? 'the evaluator could not be started' : event.message;
};

const isOfOurs = (news: News): boolean => news.kind === 'some' || ('side' in news && news.side === 'ours');

let generation = 0;
/** The draft as the worker tries it. */
export const tried = computed(() => {
  const sets = opened.value?.sets;
  return sets && toAmendment(draft.value, sets, { trying: true });
});
export const trying = computed(() => (tried.value === undefined ? undefined : JSON.stringify(tried.value)));
const own = computed(() => draft.value.own);

/** Part of the policies → where it lies. */
export const addresses = (): Readonly<Record<string, string>> =>
  Object.fromEntries(
    Object.entries(policies).map(([part, file]) => [part, new URL(file, document.baseURI).href]),
  );

export function openBench(): void {
  order({ kind: 'open', addresses: addresses(), first: setInView.peek() });
  effect(() => order({ kind: 'view', set: setInView.value }));
  effect(() => {
    if (!opened.value) return;
    const amendment = trying.value;
    if (amendment === undefined) for (const ledger of ledgers.values()) ledger.same();
    generation += 1;
    settled.value = false;
    order({ kind: 'draft', generation, amendment, own: own.value, first: setInView.peek() });
  });
}
