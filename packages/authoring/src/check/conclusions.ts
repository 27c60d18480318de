import { skeleton } from './confusables.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { reportLoops } from './cycles.ts';
import { described, type FactEntry } from './entries.ts';
import type { Findings } from './findings.ts';
import { didYouMean } from './nearest.ts';
import type { SetEntry, Survey } from './survey.ts';

/** A conclusion read as a fact: of a decision set, named after it, with exactly its conclusions as codes. */
export function checkConclusion(body: Cursor, fact: FactEntry, context: Context): void {
  const { find, owner, survey } = context;
  const id = skeleton(body.text ?? '');
  const set = survey.sets.get(id);
  if (set === undefined) {
    const message = `there is no rule set \`${body.text ?? ''}\`, whose conclusion ${owner} reads`;
    find.report('unknown-set', body, { message, received: id, ...didYouMean(id, survey.sets.keys()) });
    return;
  }
  if (set.shape !== 'decision') {
    const message = `\`${id}\` is of shape ${set.shape ?? 'unknown'}, but only a decision concludes`;
    find.report('derivation-wrong-type', body, { message, expected: 'decision', received: set.shape ?? '' });
    return;
  }
  if (fact.type !== undefined && fact.type !== 'code') {
    const message = `${owner} is of type ${fact.type}, but a conclusion is a code`;
    find.report('derivation-wrong-type', body, {
      part: 'key',
      message,
      expected: 'code',
      received: described(fact),
    });
    return;
  }
  const name = fact.entry.at('id');
  if (name.text !== `conclusion.${id}`) {
    const message = `the fact \`${name.text ?? ''}\` reads the conclusion of \`${id}\` and is named after it`;
    find.report('name-mismatch', name, { message, expected: `conclusion.${id}`, received: name.text ?? '' });
  }
  checkCodes(fact, set, context);
}

function checkCodes(fact: FactEntry, set: SetEntry, { find, survey }: Context): void {
  const list = survey.lists.get(skeleton(fact.codes ?? ''));
  if (list === undefined) return;
  const codes = [...list.words.keys()];
  const missing = [...set.conclusions].filter((code) => !list.words.has(code));
  const foreign = codes.filter((code) => !set.conclusions.has(code));
  if (missing.length + foreign.length === 0) return;
  find.report('conclusion-codes', fact.entry.at('codes'), {
    message: `the code list \`${list.name}\` is not the conclusions of \`${set.id}\``,
    expected: [...set.conclusions].sort().join(', '),
    received: codes.sort().join(', '),
  });
}

/** Sets that read each other's conclusions in a circle could never be evaluated. */
export function checkSetCycles(survey: Survey, find: Findings): void {
  const edges = new Map(
    [...survey.sets].map(([id, { root }]) => {
      const read = root.at('derived').items.map((entry) => entry.at('from').at('conclusion'));
      const named = read.filter(({ text }) => text !== undefined);
      return [id, named.map((at) => ({ to: skeleton(at.text!), at }))] as const;
    }),
  );
  reportLoops(edges, 'set-cycle', 'conclusions of rule sets', { find });
}
