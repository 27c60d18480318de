import type { Condition, Derivation, Fact, FieldCondition, Items, Operand, Rule } from '@dwellset/core';

/** Ids that a part of a rule set refers to. A placeholder may name a fact or a parameter. */
export interface References {
  readonly facts: Set<string>;
  readonly parameters: Set<string>;
  readonly tables: Set<string>;
  readonly conditions: Set<string>;
  /** Rule sets whose conclusion is read. */
  readonly sets: Set<string>;
  readonly placeholders: Set<string>;
}

export const noReferences = (): References => ({
  facts: new Set(),
  parameters: new Set(),
  tables: new Set(),
  conditions: new Set(),
  sets: new Set(),
  placeholders: new Set(),
});

export function addCondition(to: References, condition: Condition | undefined): void {
  if (condition === undefined) return;
  if ('all' in condition) for (const part of condition.all) addCondition(to, part);
  else if ('any' in condition) for (const part of condition.any) addCondition(to, part);
  else if ('not' in condition) addCondition(to, condition.not);
  else if ('condition' in condition) to.conditions.add(condition.condition);
  else {
    if ('fact' in condition) to.facts.add(condition.fact);
    else to.parameters.add(condition.parameter);
    addParameter(to, condition.value);
  }
}

/** `{{id}}` in a text. */
export function addText(to: References, text: string | readonly string[] | undefined): void {
  for (const line of typeof text === 'string' ? [text] : (text ?? [])) {
    for (const match of line.matchAll(/\{\{\s*([^{}]+?)\s*\}\}/g)) to.placeholders.add(match[1]!);
  }
}

export function addRule(to: References, rule: Rule): void {
  for (const part of [rule.scope, rule.when, rule.expect, rule.excludes, rule.remarks])
    addCondition(to, part);
  if (rule.prefers && 'options' in rule.prefers) addCondition(to, rule.prefers.options);
  else if (rule.prefers) to.facts.add(rule.prefers.lowest);
  addText(to, [rule.title, rule.because]);
  addText(to, rule.advice?.summary);
  addText(to, rule.advice?.detail);
  addText(
    to,
    rule.advice?.suggestions?.map(({ label }) => label),
  );
}

/** What a fact rests on: the inputs of its derivation, and the instant it may not lie before. */
export function addFact(to: References, fact: Fact): void {
  if (fact.notBefore !== undefined) to.facts.add(fact.notBefore);
  if (fact.from !== undefined) addDerivation(to, fact.from);
}

function addDerivation(to: References, from: Derivation): void {
  if ('elapsed' in from) addOperands(to, [from.elapsed.from, from.elapsed.to]);
  else if ('calendarDays' in from) addOperands(to, [from.calendarDays.from, from.calendarDays.to]);
  else if ('localHour' in from) addOperands(to, [from.localHour.at]);
  else if ('difference' in from) addOperands(to, from.difference);
  else if ('sum' in from) addOperands(to, from.sum);
  else if ('product' in from) addOperands(to, from.product);
  else if ('ratio' in from) addOperands(to, from.ratio);
  else if ('lowest' in from) addOperands(to, from.lowest);
  else if ('highest' in from) addOperands(to, from.highest);
  else if ('firstRecorded' in from) addOperands(to, from.firstRecorded);
  else if ('lookup' in from) {
    to.tables.add(from.lookup.table);
    to.facts.add(from.lookup.key);
  } else if ('band' in from) {
    to.facts.add(from.band.of);
    addParameter(to, from.band.atCut);
  } else if ('countCodes' in from) {
    to.facts.add(from.countCodes.of);
    addParameter(to, from.countCodes.in);
  } else if ('conclusion' in from) to.sets.add(from.conclusion);
  else addItems(to, itemsOf(from));
}

type ListDerivation = Extract<
  Derivation,
  | { readonly count: unknown }
  | { readonly total: unknown }
  | { readonly least: unknown }
  | { readonly greatest: unknown }
  | { readonly newest: unknown }
  | { readonly longestRun: unknown }
>;

const itemsOf = (from: ListDerivation): Items => Object.values(from)[0] as Items;

function addItems(to: References, { of, where, within }: Items): void {
  to.facts.add(of);
  if (within?.since !== undefined) to.facts.add(within.since);
  addParameter(to, within?.last);
  addFieldCondition(to, where);
}

function addFieldCondition(to: References, condition: FieldCondition | undefined): void {
  if (condition === undefined) return;
  if ('all' in condition) for (const part of condition.all) addFieldCondition(to, part);
  else if ('any' in condition) for (const part of condition.any) addFieldCondition(to, part);
  else if ('not' in condition) addFieldCondition(to, condition.not);
  else addParameter(to, condition.value);
}

function addOperands(to: References, operands: readonly Operand[]): void {
  for (const operand of operands) {
    if (typeof operand !== 'string') addParameter(to, operand);
    else if (operand !== 'asOf') to.facts.add(operand);
  }
}

function addParameter(to: References, value: unknown): void {
  if (typeof value !== 'object' || value === null) return;
  const { parameter } = value as { parameter?: unknown };
  if (typeof parameter === 'string') to.parameters.add(parameter);
}
