import { checkCondition } from './conditions.ts';
import { skeleton } from './confusables.ts';
import { type Context, factNamed } from './context.ts';
import type { Cursor } from './cursor.ts';
import { checkEmptyLists } from './emptyLists.ts';
import { checkEvidenceIds } from './evidence.ts';
import { didYouMean } from './nearest.ts';
import { reachedFrom } from './references.ts';
import { checkRuleShape } from './ruleShape.ts';
import type { SetEntry } from './survey.ts';
import {
  advisedTexts,
  checkHardStop,
  checkPlaces,
  checkPlain,
  checkSummary,
  checkTypedNumbers,
} from './texts.ts';

/** One rule, from its own file or from an amendment; `rules` are the ids it may name. */
export function checkRule(rule: Cursor, set: SetEntry, rules: Iterable<string>, outer: Context): void {
  const context = { ...outer, owner: `rule \`${rule.at('id').text ?? rule.key}\`` };
  checkRuleShape(rule, set, context);
  for (const key of ['scope', 'when', 'expect'] as const) checkPart(rule.at(key), context, 'patient');
  for (const key of ['excludes', 'remarks'] as const) checkPart(rule.at(key), context, 'options');
  checkPart(rule.at('prefers').at('options'), context, 'options');
  checkLowest(rule.at('prefers').at('lowest'), context);
  checkSupport(rule, context);
  checkSuperseded(rule.at('supersedes'), [...rules], context);
  checkTexts(rule, context);
}

function checkPart(node: Cursor, context: Context, options: 'patient' | 'options'): void {
  if (!node.exists) return;
  checkCondition(node, context, options);
  checkEmptyLists(node, context);
}

function checkLowest(at: Cursor, context: Context): void {
  const fact = factNamed(at, context);
  if (fact?.type === undefined || fact.type === 'number') return;
  const message = `\`lowest\` in ${context.owner} needs a number, but \`${fact.id}\` is of type ${fact.type}`;
  context.find.report('operator-not-fit', at, { message, expected: 'number', received: fact.type });
}

/** Evidence behind it, and hazards where it is locked. */
function checkSupport(rule: Cursor, context: Context): void {
  const { find, owner, survey } = context;
  const evidence = rule.at('evidence');
  checkEvidenceIds(evidence, context);
  if (evidence.isList && evidence.items.length === 0) {
    find.report('rule-without-evidence', evidence, { message: `${owner} names no evidence` });
  }
  const hazards = rule.at('hazards');
  for (const at of hazards.items) {
    if (at.text === undefined || survey.hazards.has(skeleton(at.text))) continue;
    find.report('unknown-hazard', at, {
      message: `${owner} names the unknown hazard \`${at.text}\``,
      received: at.text,
      ...didYouMean(at.text, survey.hazards),
    });
  }
  const named =
    find.isMisspelt(rule, 'hazards') || (hazards.exists && (!hazards.isList || hazards.items.length > 0));
  if (rule.at('locked').value !== true || named) return;
  const message = `${owner} is locked but names no hazard that it controls`;
  find.report('locked-without-hazard', rule.at('locked'), { part: 'key', message, expected: 'hazards' });
}

function checkSuperseded(list: Cursor, rules: readonly string[], { find, owner }: Context): void {
  for (const at of list.items) {
    if (at.text === undefined || rules.includes(skeleton(at.text))) continue;
    const message = `${owner} folds the unknown rule \`${at.text}\``;
    find.report('unknown-rule', at, { message, received: at.text, ...didYouMean(at.text, rules) });
  }
}

function checkTexts(rule: Cursor, context: Context): void {
  const advice = rule.at('advice');
  const summary = advice.at('summary');
  checkPlain(rule.at('title'), context);
  checkPlaces(rule.at('because'), context);
  const texts = advisedTexts(advice);
  for (const at of texts) checkPlaces(at, context);
  checkSummary(summary, context);
  const values = numbersOf(rule, context);
  for (const at of texts) checkTypedNumbers(at, values, context);
  const stop = rule.at('locked').value === true && advice.at('indicator').text === 'critical';
  if (stop) checkHardStop(summary, context);
}

/** Values in force of the number parameters that the rule reads, itself or through what it names. */
function numbersOf(rule: Cursor, { conditions, facts, survey }: Context): ReadonlyMap<number, string> {
  const parts = ['scope', 'when', 'expect', 'excludes', 'remarks', 'prefers'].map((key) => rule.at(key));
  const values = new Map<number, string>();
  for (const id of reachedFrom(parts, conditions, facts).parameters) {
    const value = survey.parameters.get(id)?.entry.at('default').number;
    if (value !== undefined && !values.has(value)) values.set(value, id);
  }
  return values;
}
