import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { reportDuplicates } from './duplicates.ts';
import { checkDay } from './moments.ts';
import { didYouMean } from './nearest.ts';
import { checkWithdrawn } from './withdrawals.ts';

/** Which releases a hospital takes on: sets that there are, and a review after the date. */
export function checkAdoption(root: Cursor, outer: Context): void {
  const context = { ...outer, owner: `adoption \`${root.at('id').text ?? ''}\`` };
  const { find, owner } = context;
  const [date, due] = [root.at('date'), root.at('reviewDue')];
  for (const at of [date, due]) checkDay(at, context);
  if (date.text !== undefined && due.text !== undefined && due.text <= date.text) {
    const message = `the review of ${owner} is due before it begins`;
    find.report('dates-order', due, { message, expected: `after ${date.text}`, received: due.text });
  }
  const releases = root.at('releases').items;
  const ids = releases.map((release) => release.at('id'));
  for (const id of ids) checkSetName(id, context);
  for (const release of releases) checkWithdrawn(release.at('id'), release.at('version'), context);
  reportDuplicates(ids, `a release in ${owner}`, find);
}

export function checkSetName(at: Cursor, { find, owner, survey }: Context): void {
  if (at.text === undefined || survey.sets.has(at.text)) return;
  const message = `${owner} names the unknown set \`${at.text}\``;
  find.report('unknown-set', at, { message, received: at.text, ...didYouMean(at.text, survey.sets.keys()) });
}
