import { type Context, factNamed } from './context.ts';
import { checkDerivation } from './derivations.ts';
import type { FactEntry } from './entries.ts';
import { checkList } from './lists.ts';
import { checkBands, checkTypeKeys } from './typeKeys.ts';

/** One entry of the dictionary, of a set's derived facts or of an amendment's own facts. */
export function checkFact(fact: FactEntry, outer: Context): void {
  const context = { ...outer, owner: `fact \`${fact.id}\`` };
  const { entry } = fact;
  checkTypeKeys(entry, context);
  checkBands(entry, context);
  if (fact.type === 'list') {
    checkList(fact, context);
    return;
  }
  const before = entry.at('notBefore');
  const other = factNamed(before, context);
  if (other?.type !== undefined && fact.type !== undefined && other.type !== fact.type) {
    const message = `\`${other.id}\` is of type ${other.type} and cannot be compared with ${context.owner} of type ${fact.type}`;
    context.find.report('operator-not-fit', before, { message, expected: fact.type, received: other.type });
  }
  checkDerivation(fact, context);
}
