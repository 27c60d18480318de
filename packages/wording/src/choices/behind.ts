import { type Advice, PLACE, type Reason, type RuleReasons, type RuleResult } from '@dwellset/core';
import { type Content, ruleOf } from '../assessment/context.ts';
import { nearMisses } from '../assessment/nearMiss.ts';
import { shownReasons } from '../assessment/proof.ts';
import { usesOfFacts } from './uses.ts';

/** The local choices at the deciding ends of a statement of reasons. */
function decisive(reason: Reason | undefined, found: Set<string>): void {
  if (!reason?.deciding) return;
  if ((reason.kind === 'fact' || reason.kind === 'parameter') && reason.parameter)
    found.add(reason.parameter);
  if ('of' in reason) for (const part of reason.of) decisive(part, found);
}

function decisiveIn(reasons: RuleReasons | undefined, found: Set<string>): void {
  // Whom and when a set is asked about is the same for all its rules, and tells nothing about this one.
  for (const part of [reasons?.scope, reasons?.when, reasons?.expect]) decisive(part, found);
}

/** Local choices that its text names. */
function named({ set, rule }: Advice, { releases, words }: Content, found: Set<string>): void {
  const advice = releases.find(({ id }) => id === set)?.rules.find(({ id }) => id === rule)?.advice;
  for (const [, place = ''] of JSON.stringify(advice ?? '').matchAll(PLACE)) {
    if (words.parameters.has(place)) found.add(place);
  }
}

/** The local choices that made one advice speak, or that it names. */
export function choicesBehind(advice: Advice, content: Content): ReadonlySet<string> {
  const found = new Set<string>();
  decisiveIn(ruleOf(content, advice.set, advice.rule)?.reasons, found);
  named(advice, content, found);
  return found;
}

/** The facts at the deciding ends of a statement of reasons. */
function decidingFacts(reason: Reason | undefined, found: Set<string>): void {
  if (!reason?.deciding) return;
  if (reason.kind === 'fact') found.add(reason.read.fact);
  if ('of' in reason) for (const part of reason.of) decidingFacts(part, found);
}

/** The code that was read for a fact, where some statement of reasons tells it. */
function codeRead(fact: string, { assessment: { ruleSets } }: Content): string | undefined {
  const within = (reason: Reason | undefined): string | undefined => {
    if (reason?.kind === 'fact' && reason.read.fact === fact && typeof reason.read.value === 'string')
      return reason.read.value;
    return reason && 'of' in reason ? firstOf(reason.of, within) : undefined;
  };
  return firstOf(ruleSets, ({ rules }) =>
    firstOf(rules, ({ reasons }) => firstOf(Object.values(reasons ?? {}) as Reason[], within)),
  );
}

function firstOf<T>(items: readonly T[], find: (item: T) => string | undefined): string | undefined {
  for (const item of items) {
    const found = find(item);
    if (found !== undefined) return found;
  }
  return undefined;
}

/**
 * Whether a cell, named as `table/row/column`, is what made one advice speak. Where the row that was read is told
 * nowhere, every row of the column may be.
 */
export function isCellBehind({ set, rule }: Advice, content: Content): (item: string) => boolean {
  const release = content.releases.find(({ id }) => id === set);
  const reasons = ruleOf(content, set, rule)?.reasons;
  const facts = new Set<string>();
  for (const part of [reasons?.scope, reasons?.when, reasons?.expect]) decidingFacts(part, facts);
  const read = release ? [...usesOfFacts(facts, release).lookups] : [];
  return (item) => {
    const [table, row, column] = item.split('/');
    return read.some(
      (one) => one.table === table && one.column === column && row === (codeRead(one.key, content) ?? row),
    );
  };
}

/** Rules that a local choice decided, or that read it, by the choice. */
export type RulesByChoice = ReadonlyMap<string, readonly RuleNamed[]>;

export interface RuleNamed {
  readonly set: string;
  readonly id: string;
  readonly title: string;
}

const asMap = (pairs: readonly (readonly [choice: string, rule: RuleNamed])[]): RulesByChoice => {
  const found = new Map<string, RuleNamed[]>();
  for (const [choice, rule] of pairs) {
    const rules = found.get(choice) ?? [];
    if (!rules.some(({ set, id }) => set === rule.set && id === rule.id)) rules.push(rule);
    found.set(choice, rules);
  }
  return found;
};

/** A rule that applies and whose advice is folded, from its name as `set@version/rule`. */
function foldedRule(name: string, content: Content): { readonly set: string; readonly rule: RuleResult }[] {
  const [owner = '', id = ''] = name.split('/');
  const set = owner.split('@')[0] ?? '';
  const rule = ruleOf(content, set, id);
  return rule ? [{ set, rule }] : [];
}

/** The local choices behind each advice, behind what is folded under one, and behind what was weighed and not met. */
export function choicesOf(content: Content): RulesByChoice {
  const { advice, ruleSets } = content.assessment;
  const spoken = advice.flatMap((one) => {
    const title = ruleOf(content, one.set, one.rule)?.title ?? one.rule;
    return [...choicesBehind(one, content)].map((id) => [id, { set: one.set, id: one.rule, title }] as const);
  });
  const silent = [
    ...advice.flatMap(({ folded }) => folded.flatMap((name) => foldedRule(name, content))),
    ...ruleSets.flatMap((set) => nearMisses(set).map(({ rule }) => ({ set: set.id, rule }))),
  ];
  const others = silent.flatMap(({ set, rule: { id, title, reasons } }) => {
    const own = new Set<string>();
    decisiveIn(reasons, own);
    return [...own].map((choice) => [choice, { set, id, title }] as const);
  });
  return asMap([...spoken, ...others]);
}

function readIn(reason: Reason | undefined, found: Set<string>): void {
  if (reason === undefined) return;
  if ((reason.kind === 'fact' || reason.kind === 'parameter') && reason.parameter)
    found.add(reason.parameter);
  if ('of' in reason) for (const part of reason.of) readIn(part, found);
}

/** Every local choice in the statements of reasons that are shown. */
export function choicesRead({ assessment: { ruleSets } }: Content): RulesByChoice {
  return asMap(
    ruleSets.flatMap((set) =>
      set.rules.flatMap((rule) => {
        const found = new Set<string>();
        for (const part of Object.values(shownReasons(rule)) as Reason[]) readIn(part, found);
        return [...found].map((choice) => [choice, { set: set.id, id: rule.id, title: rule.title }] as const);
      }),
    ),
  );
}
