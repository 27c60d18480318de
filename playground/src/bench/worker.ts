import { z } from 'zod';
import { ANSWERS } from './answers.ts';
import { Bench } from './bench.ts';
import { Documents } from './documents.ts';
import type { News, Order } from './shapes.ts';

// The page forbids code made from text; zod would try it.
z.config({ jitless: true });

const post = (news: News): void => self.postMessage(news);
const told = (error: unknown): string => (error instanceof Error ? error.message : String(error));
let bench: Bench | undefined;

async function open({ addresses, first }: Extract<Order, { kind: 'open' }>): Promise<void> {
  try {
    const documents = new Documents(addresses);
    // Fetched beside the rules; who needs them hears of a failure.
    const patients = documents.patients(first).catch(() => undefined);
    const rules = await documents.rules();
    await patients;
    bench = new Bench(rules, post, documents);
  } catch (error) {
    post({ kind: 'failed', message: told(error) });
  }
}

async function answer({ id, name, ask }: Extract<Order, { kind: 'ask' }>): Promise<void> {
  try {
    if (!bench) throw new Error('the policies are not open yet');
    const value = await (ANSWERS[name] as (bench: Bench, ask: unknown) => unknown)(bench, ask);
    post({ kind: 'answer', id, value });
  } catch (error) {
    post({ kind: 'unanswered', id, message: told(error) });
  }
}

self.onmessage = ({ data: order }: MessageEvent<Order>) => {
  if (order.kind === 'open') void open(order);
  else if (order.kind === 'ask') void answer(order);
  else if (order.kind === 'view') void bench?.view(order.set);
  else void bench?.draft(order.generation, order.amendment, order.own, order.first);
};
