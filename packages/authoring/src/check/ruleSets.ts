import { checkCondition } from './conditions.ts';
import { skeleton } from './confusables.ts';
import { type Context, setContext } from './context.ts';
import type { Cursor } from './cursor.ts';
import { checkConditionCycles, checkDerivationCycles, checkFoldingCycles } from './cycles.ts';
import { isDay } from './dates.ts';
import { reportDuplicates } from './duplicates.ts';
import { checkEmptyLists } from './emptyLists.ts';
import { checkFact } from './facts.ts';
import type { Findings } from './findings.ts';
import { reportBadDate } from './moments.ts';
import { didYouMean } from './nearest.ts';
import { checkRule } from './rules.ts';
import { checkStock } from './stock.ts';
import { baseName, folderOf, type SetEntry, type Survey } from './survey.ts';
import { checkVignettes } from './vignettes.ts';

/** A rule set with everything in its folder. */
export function checkRuleSet(set: SetEntry, survey: Survey, find: Findings): void {
  const context = setContext(survey, set, find);
  const { root } = set;
  checkUses(root.at('uses'), context);
  for (const part of [root.at('population').at('when'), root.at('scope')]) {
    if (!part.exists) continue;
    checkCondition(part, context, 'patient');
    checkEmptyLists(part, context);
  }
  const reads = set.shape === 'choice' ? 'options' : 'patient';
  for (const [name, node] of root.at('conditions').entries) {
    checkCondition(node, { ...context, owner: `condition \`${name}\`` }, reads);
  }
  for (const fact of set.derived.values()) checkFact(fact, context);
  checkConditionCycles(context);
  checkDerivationCycles(context, set.derived.keys());
  checkConclusions(root, set, context);
  const conclusions = [...root.at('conclusions').items, root.at('defaultConclusion')];
  reportDuplicates(
    conclusions.map((conclusion) => conclusion.at('id')),
    `a conclusion of ${context.owner}`,
    find,
  );
  checkPeriod(root.at('effectivePeriod'), context);
  checkListed(set, context);
  checkFoldingCycles(set.rules, context);
  for (const rule of set.rules.values()) checkRule(rule, set, set.rules.keys(), context);
  for (const stock of set.stock.values()) checkStock(stock, context);
  for (const vignettes of set.vignettes.values()) checkVignettes(vignettes, set, context);
}

function checkUses(uses: Cursor, { find, owner, survey }: Context): void {
  for (const at of uses.items) {
    if (at.text === undefined || survey.topics.has(at.text)) continue;
    const message = `${owner} uses the unknown topic \`${at.text}\``;
    find.report('unknown-topic', at, { message, received: at.text, ...didYouMean(at.text, survey.topics) });
  }
}

function checkConclusions(root: Cursor, { shape }: SetEntry, { find, owner }: Context): void {
  for (const key of ['conclusions', 'defaultConclusion'] as const) {
    const wanted = shape === 'decision';
    if (shape === undefined || root.has(key) === wanted || find.isMisspelt(root, key)) continue;
    const message = wanted
      ? `${owner} decides something and needs \`${key}\``
      : `${owner} is of shape \`${shape}\` and has no \`${key}\``;
    find.report('decision-shape', wanted ? root : root.at(key), {
      ...(!wanted && { part: 'key' as const }),
      message,
    });
  }
}

function checkPeriod(period: Cursor, { find, owner }: Context): void {
  const [start, end] = [period.at('start'), period.at('end')];
  for (const at of [start, end]) if (at.text !== undefined && !isDay(at.text)) reportBadDate(at, owner, find);
  if (start.text === undefined || end.text === undefined || start.text <= end.text) return;
  const message = `the effective period of ${owner} ends before it starts`;
  find.report('dates-order', end, { message, expected: `not before ${start.text}`, received: end.text });
}

/** A set and its folder name each other: rules in its list, stock lists under `stock`. */
function checkListed(set: SetEntry, context: Context): void {
  const { find, owner } = context;
  const list = set.root.at('rules');
  reportDuplicates(list.items, `a rule of ${owner}`, find);
  const listed = new Set(list.items.map(({ text }) => skeleton(text ?? '')));
  const unlisted = [...set.rules.keys()].filter((id) => !listed.has(id));
  for (const at of list.items) {
    if (at.text === undefined || set.rules.has(skeleton(at.text))) continue;
    const message = `${owner} lists the rule \`${at.text}\`, which has no file`;
    find.report('missing-rule', at, { message, received: at.text, ...didYouMean(at.text, unlisted) });
  }
  const missing = list.items.flatMap(({ text }) =>
    text !== undefined && !set.rules.has(text) ? [text] : [],
  );
  for (const id of list.isList ? unlisted : []) {
    // A misspelt entry of the list is one mistake, and already reported there.
    if (missing.some((name) => didYouMean(name, [id]).hint !== undefined)) continue;
    const message = `rule \`${id}\` is not listed in ${owner}, so it would never run`;
    find.report('unlisted-rule', set.rules.get(id)!.at('id'), {
      message,
      expected: `\`${id}\` in \`rules\``,
    });
  }
  checkStockListed(set, context);
  for (const [id, rule] of set.rules) {
    if (set.vignettes.has(id)) continue;
    find.report('untested-rule', rule.at('id'), { message: `rule \`${id}\` has no vignette beside it` });
  }
}

function checkStockListed(set: SetEntry, { find, owner }: Context): void {
  const list = set.root.at('stock');
  const listed = list.items.flatMap(({ text }) => text ?? []);
  for (const at of list.items) {
    if (at.text === undefined || set.stock.has(at.text)) continue;
    const message = `${owner} lists the stock \`${at.text}\`, which has no file`;
    find.report('stock-not-listed', at, {
      message,
      received: at.text,
      ...didYouMean(at.text, set.stock.keys()),
    });
  }
  for (const [kind, root] of set.stock) {
    if (listed.includes(kind) || listed.some((name) => didYouMean(name, [kind]).hint)) continue;
    const message = `the stock list \`${kind}\` is not listed in ${owner}, so nothing would be chosen from it`;
    find.report('stock-not-listed', root.at('of'), { message, expected: `\`${kind}\` in \`stock\`` });
  }
}

/** Rules, vignettes and stock lists in a folder without a rule set, and vignettes beside no rule. */
export function checkStrays(survey: Survey, find: Findings): void {
  for (const { path, kind, root } of survey.documents) {
    if (kind !== 'rule' && kind !== 'vignettes' && kind !== 'stock') continue;
    const set = survey.sets.get(folderOf(path));
    const beside = kind !== 'vignettes' || set?.rules.has(baseName(path));
    if (set !== undefined && beside) continue;
    const message =
      set === undefined
        ? `\`${path}\` stands in a folder without a \`ruleset.json\``
        : `\`${path}\` stands beside no rule of that name`;
    find.report('misplaced-document', root.at('$schema'), {
      message,
      ...(set && didYouMean(baseName(path), set.rules.keys())),
    });
  }
}
