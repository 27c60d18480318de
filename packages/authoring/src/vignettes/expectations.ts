import type {
  Assessment,
  ChoiceResult,
  ExplainOptions,
  OptionResult,
  Reason,
  RuleResult,
  RuleSetResult,
} from '@dwellset/core';
import type { Expectation } from '../documents/vignettes.ts';

/** One difference between what a vignette must give and what it gave, both as JSON values. */
export interface Mismatch {
  /** Which part, e.g. `rules.overdue` or `ask`. */
  readonly what: string;
  readonly expected: unknown;
  /** `null` where there is no such thing. */
  readonly received: unknown;
}

interface Seen {
  readonly assessment: Assessment;
  readonly set: RuleSetResult;
}

/** As much of an assessment as an expectation is held against. */
export const readFor = ({ ask, deciding }: Expectation): ExplainOptions => ({
  reasons: deciding ? 'deciding' : 'none',
  optionFacts: false,
  asks: ask !== undefined,
});

/** Holds an assessment against what a vignette expects of its set. */
export function mismatches(expect: Expectation, assessment: Assessment, setId: string): Mismatch[] {
  const set = assessment.ruleSets.find(({ id }) => id === setId);
  if (set === undefined) return [{ what: 'set', expected: setId, received: null }];
  const seen: Seen = { assessment, set };
  const found: Mismatch[] = [];
  const compare = (what: string, expected: unknown, received: unknown): void => {
    if (JSON.stringify(expected) !== JSON.stringify(received)) {
      found.push({ what, expected, received: received ?? null });
    }
  };
  const each = <T>(
    part: string,
    record: Readonly<Record<string, T>> | undefined,
    read: (id: string, expected: T) => unknown,
  ) => {
    for (const [id, expected] of Object.entries(record ?? {}))
      compare(`${part}.${id}`, expected, read(id, expected));
  };
  each('rules', expect.rules, (id, word) => wordOf(set, id, word));
  if (expect.speaks) compare('speaks', expect.speaks, spoken(seen));
  for (const [id, facts] of Object.entries(expect.deciding ?? {})) {
    compare(`deciding.${id}`, [...new Set(facts)].sort(), decidingFacts(set, id));
  }
  if (expect.ask) compare('ask', expect.ask, asked(assessment, setId, expect.ask.length));
  if (expect.conclusion) comparePart('conclusion', expect.conclusion, set.conclusion, compare);
  if (expect.compliance) comparePart('compliance', expect.compliance, set.compliance, compare);
  for (const [kind, states] of Object.entries(expect.options ?? {})) {
    const options = choiceOf(set, kind)?.options;
    each(`options.${kind}`, states, (id) => options?.find((option) => option.id === id)?.state);
  }
  for (const [kind, remarks] of Object.entries(expect.remarks ?? {})) {
    const options = choiceOf(set, kind)?.options;
    each(`remarks.${kind}`, remarks, (id) => remarksOn(options?.find((option) => option.id === id)));
  }
  for (const [kind, item] of Object.entries(expect.chosen ?? {})) {
    const chosen = choiceOf(set, kind)?.chosen;
    comparePart(
      `chosen.${kind}`,
      item,
      chosen ? { ...chosen, remarks: remarksOn(chosen) } : UNREPORTED,
      compare,
    );
  }
  each('first', expect.first, (kind) => choiceOf(set, kind)?.options.find(({ rank }) => rank === 1)?.id);
  each('provisional', expect.provisional, (kind) => choiceOf(set, kind)?.provisional);
  each('nothingLeft', expect.nothingLeft, (kind) => choiceOf(set, kind)?.nothingLeft);
  each('summary', expect.summary, (id) => summaryOf(seen, id));
  each(
    'problems',
    expect.problems,
    (fact) => assessment.problems.find((problem) => problem.fact === fact)?.code,
  );
  return found;
}

/** Of a patient whom the set is not about, an item in the hand is reported only where something excludes it. */
const UNREPORTED = { excludedBy: [] };

/** Only what the vignette states is compared, key by key. */
function comparePart(
  what: string,
  expected: object,
  received: object | undefined,
  compare: (what: string, expected: unknown, received: unknown) => void,
): void {
  for (const [key, value] of Object.entries(expected)) {
    compare(`${what}.${key}`, value, (received as Record<string, unknown> | undefined)?.[key]);
  }
}

const OUTCOMES_ONLY = ['applies', 'does-not-apply', 'not-in-scope'];

/** In a checklist the words of the check count, unless the vignette names an outcome that is none of them. */
function wordOf({ rules }: RuleSetResult, id: string, expected: string): string | undefined {
  const rule = rules.find((result) => result.id === id);
  return OUTCOMES_ONLY.includes(expected) ? rule?.outcome : (rule?.check ?? rule?.outcome);
}

const spoken = ({ assessment, set }: Seen): string[] =>
  assessment.advice.filter((advice) => advice.set === set.id).map(({ rule }) => rule);

/**
 * As many questions of this set as the vignette names; one that names none expects that nothing is asked. A set whose
 * conclusion is read runs beside it and has questions of its own.
 */
function asked({ ask }: Assessment, set: string, count: number): string[] {
  const own = ask.filter(({ rules }) => rules.some((rule) => rule.startsWith(`${set}/`)));
  return own.slice(0, count === 0 ? own.length : count).map(({ fact }) => fact);
}

const choiceOf = ({ choices }: RuleSetResult, kind: string): ChoiceResult | undefined =>
  choices?.find(({ of }) => of === kind);

/** Rules that remark on an option, in rule order. */
const remarksOn = (option: OptionResult | undefined): string[] | undefined =>
  option?.remarks.map(({ rule }) => rule);

const summaryOf = ({ assessment, set }: Seen, id: string): string | undefined =>
  assessment.advice.find((advice) => advice.set === set.id && advice.rule === id)?.summary;

function decidingFacts({ rules }: RuleSetResult, id: string): string[] | undefined {
  const rule: RuleResult | undefined = rules.find((result) => result.id === id);
  const { population, gate, scope, when, expect } = rule?.reasons ?? {};
  const facts = [population, gate, scope, when, expect].flatMap((reason) => (reason ? leaves(reason) : []));
  return rule && [...new Set(facts)].sort();
}

function leaves(reason: Reason): string[] {
  if (!reason.deciding || reason.kind === 'parameter') return [];
  return reason.kind === 'fact' ? [reason.read.fact] : reason.of.flatMap(leaves);
}
