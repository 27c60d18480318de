import { skeleton } from './confusables.ts';
import { checkCode, checkConstant } from './constants.ts';
import { type Context, factNamed, parameterNamed, sameList, tableNamed } from './context.ts';
import type { Cursor } from './cursor.ts';
import { checkResult } from './derivationOperands.ts';
import { described, type FactEntry, unitOf } from './entries.ts';
import { didYouMean } from './nearest.ts';

/** A table's column by the code of a fact: the key's list is the table's, the column's type the fact's. */
export function checkLookup(body: Cursor, fact: FactEntry, context: Context): void {
  const { find, owner } = context;
  const table = context.uses === undefined ? undefined : tableNamed(body.at('table'), context);
  const key = factNamed(body.at('key'), context);
  if (table === undefined) return;
  if (key?.type !== undefined && (key.type !== 'code' || !sameList(key.codes, table.key, context))) {
    find.report('derivation-wrong-type', body.at('key'), {
      message: `\`${key.id}\` in ${owner} is ${described(key)}, but the table \`${table.id}\` goes by \`${table.key}\``,
      expected: `code of ${table.key}`,
      received: described(key),
    });
  }
  const name = body.at('column').text ?? '';
  const column = table.columns.get(skeleton(name));
  if (column === undefined) {
    find.report('unknown-column', body.at('column'), {
      message: `the table \`${table.id}\` has no column \`${name}\`, which ${owner} reads`,
      expected: [...table.columns.keys()].join(', '),
      received: name,
      ...didYouMean(name, table.columns.keys()),
    });
  } else if (column.type !== fact.type || !sameList(column.codes, fact.codes, context)) {
    find.report('derivation-wrong-type', body.at('column'), {
      message: `the column \`${name}\` is ${described(column)}, but ${owner} is ${described(fact)}`,
      expected: described(fact),
      received: described(column),
    });
  } else if (unitOf(column) !== unitOf(fact)) {
    find.report('derivation-wrong-unit', body.at('column'), {
      message: `the column \`${name}\` is in \`${unitOf(column)}\`, but ${owner} is in \`${unitOf(fact)}\``,
      expected: unitOf(fact),
      received: unitOf(column),
    });
  }
}

/** A number turned into a code: rising cuts, one code more than cuts, all of the fact's list. */
export function checkBand(body: Cursor, fact: FactEntry, context: Context): void {
  const { find, owner } = context;
  const of = factNamed(body.at('of'), context);
  if (of?.type !== undefined && of.type !== 'number') {
    const message = `\`${of.id}\` in ${owner} is of type ${of.type}, but \`band\` needs a number`;
    find.report('derivation-wrong-type', body.at('of'), { message, expected: 'number', received: of.type });
  }
  if (fact.type !== undefined && fact.type !== 'code') {
    const message = `${owner} is of type ${fact.type}, but \`band\` gives a code`;
    find.report('derivation-wrong-type', body, {
      part: 'key',
      message,
      expected: 'code',
      received: fact.type,
    });
  }
  const cuts = body.at('cuts').items;
  const codes = body.at('codes').items;
  cuts.forEach((cut, index) => {
    if (of?.type === 'number') checkConstant(cut, of, of.id, context);
    const before = cuts[index - 1]?.number;
    if (before === undefined || before < (cut.number ?? 0)) return;
    const message = `the cuts of ${owner} do not rise: ${cut.number} follows ${before}`;
    find.report('limits-order', cut, {
      message,
      expected: `more than ${before}`,
      received: String(cut.number),
    });
  });
  if (codes.length !== cuts.length + 1) {
    const message = `${owner} has ${cuts.length} cuts and so needs ${cuts.length + 1} codes, not ${codes.length}`;
    const expected = `${cuts.length + 1} codes`;
    find.report('wrong-shape', body.at('codes'), { message, expected, received: `${codes.length} codes` });
  }
  for (const code of codes) checkCode(code, code.text ?? '', fact.codes, fact.id, context);
  if (body.at('atCut').isObject) parameterNamed(body.at('atCut').at('parameter'), context);
}

export function checkCountCodes(body: Cursor, fact: FactEntry, context: Context): void {
  const { find, owner } = context;
  const of = factNamed(body.at('of'), context);
  if (of?.type !== undefined && of.type !== 'codes') {
    const message = `\`${of.id}\` in ${owner} is of type ${of.type}, but \`countCodes\` counts codes`;
    find.report('derivation-wrong-type', body.at('of'), { message, expected: 'codes', received: of.type });
  }
  checkResult(fact, ['1'], body, context);
  const list = body.at('in');
  for (const code of list.items) checkCode(code, code.text ?? '', of?.codes, of?.id ?? '', context);
  const parameter = list.isObject ? parameterNamed(list.at('parameter'), context) : undefined;
  if (parameter?.type === undefined || of?.type !== 'codes') return;
  if (parameter.type === 'codes' && sameList(parameter.codes, of.codes, context)) return;
  find.report('parameter-not-fit', list.at('parameter'), {
    message: `the parameter \`${parameter.id}\` in ${owner} is ${described(parameter)}, but \`${of.id}\` is ${described(of)}`,
    expected: described(of),
    received: described(parameter),
  });
}
