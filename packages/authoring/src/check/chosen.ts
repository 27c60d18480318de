import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { didYouMean } from './nearest.ts';
import { shown } from './shapes.ts';
import { checkOptionFacts } from './stock.ts';

/** The item in the hand, by stock list: the id of an option, or its attributes. */
export function checkChosen(
  chosen: Cursor,
  stock: ReadonlyMap<string, readonly string[]>,
  context: Context,
): void {
  for (const [kind, item] of chosen.entries) {
    const options = checkStockName(kind, item, stock, context);
    if (item.isObject) checkOptionFacts(item, context);
    else if (item.text === undefined) {
      const message = `\`${kind}\` in ${context.owner} must be the id of an option or its attributes`;
      context.find.report('wrong-shape', item, { message, received: shown(item.value) });
    } else if (options !== undefined) checkOption(item, 'head', item.text, kind, options, context);
  }
}

/** The options of the stock list that a key names; says so where there is none. */
export function checkStockName(
  kind: string,
  at: Cursor,
  stock: ReadonlyMap<string, readonly string[]>,
  { find, owner }: Context,
): readonly string[] | undefined {
  const options = stock.get(kind);
  if (options !== undefined) return options;
  const message = `${owner} names the unknown stock list \`${kind}\``;
  find.report('unknown-stock-list', at, {
    part: 'key',
    message,
    received: kind,
    ...didYouMean(kind, stock.keys()),
  });
  return undefined;
}

export function checkOption(
  at: Cursor,
  part: 'head' | 'key',
  id: string,
  kind: string,
  options: readonly string[],
  { find, owner }: Context,
): void {
  if (options.includes(id)) return;
  const message = `${owner} names \`${id}\`, which is no option of \`${kind}\``;
  find.report('unknown-stock-list', at, { part, message, received: id, ...didYouMean(id, options) });
}
