import { checkOption, checkStockName } from './chosen.ts';
import { skeleton } from './confusables.ts';
import { type Context, factNamed } from './context.ts';
import type { Cursor } from './cursor.ts';
import { didYouMean } from './nearest.ts';
import { type SetEntry, stockOf } from './survey.ts';

/** Parts of an expectation that belong to one shape of set. */
const SHAPES: Readonly<Record<string, string>> = {
  conclusion: 'decision',
  compliance: 'checklist',
  options: 'choice',
  first: 'choice',
  provisional: 'choice',
  nothingLeft: 'choice',
  remarks: 'choice',
  chosen: 'choice',
};
/** Outcomes that only a check has. */
const CHECK_WORDS = new Set(['met', 'not-met', 'not-recorded', 'not-applicable']);

/** What a vignette expects: of rules, facts, conclusions and options that there are, in the words of the shape. */
export function checkExpectation(expect: Cursor, set: SetEntry, context: Context): void {
  const { find, owner } = context;
  if (expect.isObject && expect.keys.length === 0) {
    find.report('vignette-expects-nothing', expect, {
      message: `${owner} expects nothing, so it cannot fail`,
    });
  }
  for (const [key, part] of expect.entries) {
    const shape = SHAPES[key];
    if (shape === undefined || set.shape === undefined || set.shape === shape) continue;
    const message = `${owner} expects \`${key}\`, which a set of shape \`${set.shape}\` does not give`;
    find.report('vignette-wrong-word', part, { part: 'key', message, expected: `a ${shape} set` });
  }
  checkRules(expect, set, context);
  for (const list of [expect.at('ask'), ...expect.at('deciding').entries.map(([, facts]) => facts)]) {
    for (const at of list.items) factNamed(at, context);
  }
  for (const [, problem] of expect.at('problems').entries) factNamed(problem, context, 'key');
  checkConclusion(expect.at('conclusion'), set, context);
  if (set.shape === 'choice') checkOptions(expect, set, context);
}

function checkRules(expect: Cursor, set: SetEntry, context: Context): void {
  for (const key of ['rules', 'deciding', 'summary'] as const) {
    for (const [rule, value] of expect.at(key).entries) checkRule(value, 'key', rule, set, context);
  }
  const lists = [
    expect.at('speaks'),
    ...partsOf(expect.at('nothingLeft')),
    ...partsOf(expect.at('remarks')).flatMap(partsOf),
    ...partsOf(expect.at('chosen')).flatMap((item) => [item.at('excludedBy'), item.at('remarks')]),
  ];
  for (const list of lists) {
    for (const at of list.items) if (at.text !== undefined) checkRule(at, 'head', at.text, set, context);
  }
  for (const [rule, outcome] of expect.at('rules').entries) {
    if (set.shape === 'checklist' || !CHECK_WORDS.has(outcome.text ?? '')) continue;
    const message = `${context.owner} expects \`${outcome.text}\` of \`${rule}\`, which is a word of checklists`;
    const expected = 'applies, does-not-apply, undetermined, not-in-scope, switched-off';
    context.find.report('vignette-wrong-word', outcome, { message, expected, received: outcome.text });
  }
}

const partsOf = (at: Cursor): Cursor[] => at.entries.map(([, part]) => part);

function checkRule(
  at: Cursor,
  part: 'head' | 'key',
  rule: string,
  set: SetEntry,
  { find, owner }: Context,
): void {
  if (set.rules.has(skeleton(rule))) return;
  const message = `${owner} expects something of \`${rule}\`, which is no rule of set \`${set.id}\``;
  const near = didYouMean(rule, set.rules.keys());
  find.report('vignette-expects-unknown-rule', at, { part, message, received: rule, ...near });
}

function checkConclusion(expected: Cursor, { conclusions, id }: SetEntry, { find, owner }: Context): void {
  for (const at of [expected.at('id'), ...expected.at('possible').items]) {
    if (at.text === undefined || conclusions.has(at.text)) continue;
    const message = `${owner} expects the conclusion \`${at.text}\`, which set \`${id}\` does not have`;
    find.report('unknown-conclusion', at, {
      message,
      received: at.text,
      ...didYouMean(at.text, conclusions),
    });
  }
}

function checkOptions(expect: Cursor, set: SetEntry, context: Context): void {
  const stock = stockOf(set);
  for (const key of ['options', 'first', 'provisional', 'nothingLeft', 'remarks', 'chosen'] as const) {
    for (const [kind, part] of expect.at(key).entries) {
      const options = checkStockName(kind, part, stock, context);
      if (options === undefined) continue;
      if (key === 'first' && part.text !== undefined)
        checkOption(part, 'head', part.text, kind, options, context);
      if (key === 'chosen') checkInHand(part, kind, context);
      if (key !== 'options' && key !== 'remarks') continue;
      for (const [id, own] of part.entries) checkOption(own, 'key', id, kind, options, context);
    }
  }
}

function checkInHand(item: Cursor, kind: string, { find, owner }: Context): void {
  if (!item.isObject || item.keys.length > 0) return;
  const message = `${owner} expects nothing of the ${kind} in the hand`;
  find.report('vignette-expects-nothing', item, {
    message,
    expected: '`state`, `excludedBy` or `remarks`',
  });
}
