import { skeleton } from './confusables.ts';
import type { Cursor } from './cursor.ts';
import type { FactEntry, ParameterEntry, TableEntry } from './entries.ts';
import type { Findings } from './findings.ts';
import { didYouMean } from './nearest.ts';
import { optionFacts } from './references.ts';
import type { SetEntry, Survey } from './survey.ts';

/** What a condition, derivation or text may refer to, and on whose behalf it is checked. */
export interface Context {
  readonly find: Findings;
  readonly survey: Survey;
  /** Names the author's entry in a message, as rule `x` of `set`. */
  readonly owner: string;
  readonly facts: ReadonlyMap<string, FactEntry>;
  /** Facts that are about an option of stock, directly or through what they are derived from. */
  readonly ofOptions: ReadonlySet<string>;
  readonly conditions: ReadonlyMap<string, Cursor>;
  /** Ids of evidence; those that an amendment brings included. */
  readonly evidence: ReadonlySet<string>;
  /** Topics whose parameters may be used; absent in the dictionary, which may use none. */
  readonly uses?: ReadonlySet<string>;
}

export function dictionaryContext(survey: Survey, find: Findings): Context {
  const { facts, evidence } = survey;
  return { find, survey, owner: '', facts, ofOptions: optionFacts(facts), conditions: new Map(), evidence };
}

/** What an amendment brings along. */
export interface Local {
  readonly facts: ReadonlyMap<string, FactEntry>;
  readonly evidence: ReadonlySet<string>;
}
const NOTHING: Local = { facts: new Map(), evidence: new Set() };

export function setContext(survey: Survey, set: SetEntry, find: Findings, local: Local = NOTHING): Context {
  const facts = new Map([...set.derived, ...local.facts, ...survey.facts]);
  return {
    find,
    survey,
    owner: `set \`${set.id}\``,
    facts,
    ofOptions: optionFacts(facts),
    conditions: set.conditions,
    evidence: new Set([...survey.evidence, ...local.evidence]),
    uses: set.uses,
  };
}

/** The fact that a text names; says so where there is none. */
export function factNamed(at: Cursor, context: Context, part?: 'key'): FactEntry | undefined {
  const id = part === 'key' ? at.key : at.text;
  if (id === undefined) return undefined;
  const fact = context.facts.get(skeleton(id));
  if (fact === undefined) {
    context.find.report('unknown-fact', at, {
      ...(part && { part }),
      message: `${context.owner} reads the unknown fact \`${id}\``,
      received: id,
      ...didYouMean(id, context.facts.keys()),
    });
  }
  return fact;
}

/** Whether two code lists are the same; of a list that is not there, nothing can be said. */
export const sameList = (a: string | undefined, b: string | undefined, { survey }: Context): boolean =>
  a === b || [a, b].some((name) => name !== undefined && !survey.lists.has(name));

export function parameterNamed(at: Cursor, context: Context): ParameterEntry | undefined {
  return choiceNamed(at, context, context.survey.parameters, 'unknown-parameter', 'parameter');
}

export function tableNamed(at: Cursor, context: Context): TableEntry | undefined {
  return choiceNamed(at, context, context.survey.tables, 'unknown-table', 'table');
}

function choiceNamed<T extends { readonly topic: string }>(
  at: Cursor,
  { find, owner, uses }: Context,
  among: ReadonlyMap<string, T>,
  code: 'unknown-parameter' | 'unknown-table',
  what: string,
): T | undefined {
  const id = at.text;
  if (id === undefined) return undefined;
  const choice = among.get(skeleton(id));
  if (choice === undefined) {
    const message = `${owner} uses the unknown ${what} \`${id}\``;
    find.report(code, at, { message, received: id, ...didYouMean(id, among.keys()) });
  } else if (uses !== undefined && !uses.has(choice.topic)) {
    const message = `${owner} uses the ${what} \`${id}\` of \`${choice.topic}\`, which its set does not use`;
    find.report('parameter-not-in-uses', at, { message, hint: `add \`${choice.topic}\` to \`uses\`` });
  }
  return choice;
}
