import { checkFactValues } from './caseValues.ts';
import { skeleton } from './confusables.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { reportDuplicates } from './duplicates.ts';
import { didYouMean } from './nearest.ts';

/** A stock list, from its own file or from an amendment: attributes of its options are facts of options. */
export function checkStock(stock: Cursor, outer: Context): void {
  const context = { ...outer, owner: `stock list \`${stock.at('of').text ?? ''}\`` };
  const options = stock.at('options').items;
  reportDuplicates(
    options.map((option) => option.at('id')),
    `an option of ${context.owner}`,
    context.find,
  );
  for (const option of options) checkOptionFacts(option.at('facts'), context);
}

/** Attributes of an item: keys are facts of the group `option`. */
export function checkOptionFacts(facts: Cursor, context: Context): void {
  for (const [id, value] of facts.entries) {
    if (id.startsWith('option.') || !context.facts.has(skeleton(id))) continue;
    const message = `\`${id}\` in ${context.owner} is about the patient and not about an item of stock`;
    const near = didYouMean(
      id,
      [...context.facts.keys()].filter((key) => key.startsWith('option.')),
    );
    context.find.report('option-fact-in-when', value, { part: 'key', message, ...near });
  }
  checkFactValues(facts, context);
}
