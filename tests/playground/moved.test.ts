import { releasesFor } from '@dwellset/authoring';
import { digest as digestIn, type Release } from '@dwellset/core';
import { expect, test } from 'vitest';
import { Bench } from '../../playground/src/bench/bench.ts';
import type { News } from '../../playground/src/bench/shapes.ts';
import { library } from '../policies/shipped.ts';

const [removal] = releasesFor(library, 'removal') as [Release];

/** What the bench tells of 12 hours between two reviews, changed on a text with this digest, until all is judged. */
async function told(digest: string): Promise<readonly News[]> {
  const files = new Map(library.documents.map(({ path, source }) => [path, source.text]));
  const news: News[] = [];
  const bench = new Bench(files, (one) => news.push(one));
  const change = { set: { 'review.interval': 12 }, reason: 'Rounds are made twice a day.' };
  const amendment = {
    $schema: 'urn:dwellset:amendment:1',
    id: 'our-changes',
    version: '1.0.0',
    organisation: 'An invented hospital',
    approverRole: 'Lead nurse',
    date: '2026-11-01',
    amends: [{ set: 'removal', version: removal.version, digest, changes: [change] }],
  };
  await bench.draft(1, JSON.stringify(amendment), {}, 'removal');
  return news;
}

/** Told before anything is built. */
const toldAtOnce = (news: readonly News[]) =>
  news
    .slice(
      0,
      news.findIndex(({ kind }) => kind === 'built'),
    )
    .filter(({ kind }) => kind === 'some');

test('a change is tried on every patient at once, before it is built', async () => {
  const news = await told(digestIn(removal));
  expect(toldAtOnce(news).length).toBeGreaterThan(0);
});

test('a change made on another text of the rules is tried on nobody until its author has looked', async () => {
  const news = await told('0'.repeat(64));
  expect(toldAtOnce(news)).toEqual([]);
  expect(news.filter((one) => one.kind === 'cells' && one.side === 'ours')).toEqual([]);
  const built = news.findLast((one) => one.kind === 'built');
  expect(built?.built.refused.map(({ code }) => code)).toContain('other-digest');
});
