import { effect, signal } from '@preact/signals';
import { built, opened, settled } from './bench/client.ts';

/** Typing is let finish before work that takes seconds begins anew. */
const DEBOUNCE_MS = 150;

/** What every such worker says of its work; anything else is its own. */
export type Step =
  /** Parts of the work done, of how many. */
  | { readonly kind: 'progress'; readonly generation: number; readonly done: number; readonly of: number }
  | { readonly kind: 'done'; readonly generation: number }
  | { readonly kind: 'failed'; readonly generation: number; readonly message: string };

interface Told {
  readonly kind: string;
  readonly generation?: number;
}

interface Work<News extends Told> {
  readonly worker: () => Worker;
  /** First order to the worker. */
  readonly open: () => object;
  /** The order to begin, by the newest rules. */
  readonly begin: (generation: number) => object;
  /** What the newest run says beside its steps, and what belongs to no run. */
  readonly hear: (news: News) => void;
}

/**
 * Work on everything at once, in a worker of its own, so that the ledger never waits for it. It starts when somebody
 * first looks, and anew after each edit once the ledger is settled; what a newer edit has overtaken ends.
 */
export class Background<News extends Told> {
  readonly failure = signal<string | undefined>(undefined);
  /** Share of the work that is done by the newest rules; none while nothing runs. */
  readonly progress = signal<{ readonly done: number; readonly of: number } | undefined>(undefined);
  /** What is shown does not stand for the newest rules yet. */
  readonly behind = signal(true);
  readonly stopped = signal(false);
  readonly #work: Work<News>;
  #worker: Worker | undefined;
  #generation = 0;

  constructor(work: Work<News>) {
    this.#work = work;
  }

  readonly open = (): void => {
    if (this.#worker) return;
    this.#worker = this.#work.worker();
    this.#worker.onmessage = ({ data }: MessageEvent<News | Step>) => this.#hear(data);
    this.#worker.onerror = ({ message }) => {
      this.failure.value = message === '' ? 'the work could not be started' : message;
      this.progress.value = undefined;
    };
    this.order(this.#work.open());
    effect(() => {
      if (!opened.value) return;
      built.value;
      this.behind.value = true;
      if (!settled.value) return this.#drop();
      const timer = setTimeout(this.run, DEBOUNCE_MS);
      return () => clearTimeout(timer);
    });
  };

  order(one: object): void {
    this.#worker?.postMessage(one);
  }

  readonly run = (): void => {
    this.#generation += 1;
    this.stopped.value = false;
    this.failure.value = undefined;
    this.progress.value = { done: 0, of: 1 };
    this.order(this.#work.begin(this.#generation));
  };

  /** Ends the run; what the run before found stays, marked as behind. */
  readonly stop = (): void => {
    this.#drop();
    this.stopped.value = true;
  };

  #drop(): void {
    if (!this.progress.peek()) return;
    this.#generation += 1;
    this.order({ kind: 'cancel' });
    this.progress.value = undefined;
  }

  #hear(news: News | Step): void {
    const { generation } = news;
    // A failure before any run belongs to all of them.
    const isOld = generation !== undefined && generation !== -1 && generation !== this.#generation;
    if (isOld) return;
    if (isStep(news, 'failed')) {
      this.failure.value = news.message;
      this.progress.value = undefined;
    } else if (isStep(news, 'progress')) this.progress.value = news;
    else if (isStep(news, 'done')) {
      this.progress.value = undefined;
      this.behind.value = false;
    } else this.#work.hear(news as News);
  }
}

const isStep = <K extends Step['kind']>(news: Told, kind: K): news is Extract<Step, { kind: K }> =>
  news.kind === kind;
