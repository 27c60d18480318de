import { z } from 'zod';
import { ANSWERS } from './answers.ts';
import { Bench } from './bench.ts';
import type { News, Order } from './shapes.ts';

// The page forbids code made from text; zod would try it.
z.config({ jitless: true });

const post = (news: News): void => self.postMessage(news);
let bench: Bench | undefined;

async function open(url: string): Promise<void> {
  try {
    const response = await fetch(url);
    if (!response.ok) throw new Error(`the policies could not be read (${response.status})`);
    bench = new Bench(new Map(Object.entries((await response.json()) as Record<string, string>)), post);
  } catch (error) {
    post({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
}

function answer({ id, name, ask }: Extract<Order, { kind: 'ask' }>): void {
  try {
    if (!bench) throw new Error('the policies are not open yet');
    const value = (ANSWERS[name] as (bench: Bench, ask: unknown) => unknown)(bench, ask);
    post({ kind: 'answer', id, value });
  } catch (error) {
    post({ kind: 'unanswered', id, message: error instanceof Error ? error.message : String(error) });
  }
}

self.onmessage = ({ data: order }: MessageEvent<Order>) => {
  if (order.kind === 'open') void open(order.url);
  else if (order.kind === 'ask') answer(order);
  else void bench?.draft(order.generation, order.amendment, order.own, order.first);
};
