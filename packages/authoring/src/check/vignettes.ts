import { checkFactValues } from './caseValues.ts';
import { checkChosen } from './chosen.ts';
import { skeleton } from './confusables.ts';
import { type Context, factNamed } from './context.ts';
import type { Cursor } from './cursor.ts';
import { reportDuplicates } from './duplicates.ts';
import { checkExpectation } from './expectations.ts';
import { checkMoments } from './moments.ts';
import { didYouMean } from './nearest.ts';
import { type SetEntry, stockOf } from './survey.ts';

/** The vignettes beside one rule: a base patient, its variants, and what each expects. */
export function checkVignettes(root: Cursor, set: SetEntry, outer: Context): void {
  const { find } = outer;
  const base = root.at('base');
  const vignettes = root.at('vignettes').items;
  const context = { ...outer, owner: 'the base patient' };
  checkMoments(base, context);
  const meant = new Set(vignettes.flatMap((vignette) => vignette.at('expect').at('problems').keys));
  checkFactValues(base.at('facts'), context, meant);
  checkSearched(base.at('searched'), context);
  for (const vignette of vignettes) checkVignette(vignette, base, set, outer);
  // Names are shared by the whole set, since the hazard log names a vignette as `set/vignette`.
  if (root === set.vignettes.values().next().value) {
    const names = [...set.vignettes.values()].flatMap((file) =>
      file.at('vignettes').items.map((v) => v.at('id')),
    );
    reportDuplicates(names, `a vignette of set \`${set.id}\``, find);
  }
}

function checkVignette(vignette: Cursor, base: Cursor, set: SetEntry, outer: Context): void {
  const context = { ...outer, owner: `vignette \`${vignette.at('id').text ?? ''}\`` };
  const { find, owner } = context;
  checkMoments(vignette, context);
  checkSearched(vignette.at('searched'), context);
  checkFactValues(vignette.at('facts'), context, new Set(vignette.at('expect').at('problems').keys));
  for (const at of vignette.at('without').items) {
    if (factNamed(at, context) === undefined || base.at('facts').has(at.text!)) continue;
    const message = `${owner} takes away \`${at.text}\`, which the base patient does not have`;
    find.report('vignette-without-base', at, { message, received: at.text });
  }
  checkChosen(vignette.at('chosen'), stockOf(set), context);
  for (const [kind, item] of vignette.at('expect').at('chosen').entries) {
    if (vignette.at('chosen').has(kind)) continue;
    const message = `${owner} expects something of the ${kind} in the hand, but puts none there`;
    find.report('vignette-empty-hand', item, { part: 'key', message, expected: `\`chosen.${kind}\`` });
  }
  checkExpectation(vignette.at('expect'), set, context);
}

/** Groups of facts that somebody searched. */
export function checkSearched(list: Cursor, { find, owner, facts }: Context): void {
  if (list.items.length === 0) return;
  const groups = new Set([...facts.keys()].map((id) => id.split('.')[0]!));
  for (const at of list.items) {
    if (at.text === undefined || groups.has(skeleton(at.text))) continue;
    const message = `${owner} says that the unknown group \`${at.text}\` was searched`;
    find.report('unknown-fact', at, { message, received: at.text, ...didYouMean(at.text, groups) });
  }
}
