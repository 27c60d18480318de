import type { WardDocument } from '@dwellset/authoring';
import { z } from 'zod';
import type { Step } from '../background.ts';
import type { WardNews, WardOrder } from './shapes.ts';
import { daysOf, Ward } from './ward.ts';

// The page forbids code made from text; zod would try it.
z.config({ jitless: true });

const post = (news: WardNews | Step): void => self.postMessage(news);
let opening: Promise<Ward> | undefined;

async function open({ url, days, seed }: Extract<WardOrder, { kind: 'open' }>): Promise<Ward> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`the ward could not be read (${response.status})`);
  const files = (await response.json()) as Record<string, string>;
  const text = Object.entries(files).find(([path]) => path.startsWith('wards/'))?.[1];
  if (text === undefined) throw new Error('there is no invented ward among the policies');
  const document = JSON.parse(text) as WardDocument;
  post({ kind: 'ward', title: document.title });
  return new Ward(daysOf(document, seed, days), post);
}

async function obey(order: WardOrder): Promise<void> {
  if (order.kind === 'open') opening = open(order);
  const ward = await opening;
  if (!ward) return;
  if (order.kind === 'cancel') ward.cancel();
  else if (order.kind === 'try') await ward.try(order.generation, order.base, order.ours);
  else if (order.kind === 'case') {
    const day = ward.days[order.row];
    const name = day ? `Invented patient ${day.patient}, day ${day.day}` : '';
    post({ kind: 'case', row: order.row, name, case: day?.case });
  }
}

self.onmessage = ({ data: order }: MessageEvent<WardOrder>) => {
  obey(order).catch((error: unknown) => {
    const generation = order.kind === 'try' ? order.generation : -1;
    post({ kind: 'failed', generation, message: error instanceof Error ? error.message : String(error) });
  });
};
