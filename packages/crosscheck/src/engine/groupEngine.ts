// The package is CommonJS; its names, not its default export, are what Node and the test runner agree on.
import { Engine, type RuleProperties } from 'json-rules-engine';
import type { FactBounds } from '../bounds/factBounds.ts';
import type { Pair } from '../bounds/pair.ts';
import { type Part, partName } from '../translate/engineRule.ts';
import type { RuleGroup, Translation } from '../translate/toJsonRulesEngine.ts';
import { openFacts, type ResultNode } from './openFacts.ts';

/** What one run of the engine said of every part of a group, by `rule/part`. */
export interface Answers {
  readonly of: (rule: string | undefined, part: Part) => Pair | undefined;
  /** Facts of the leaves that keep an unknown part unknown. */
  readonly open: (rule: string | undefined, part: Part) => readonly string[];
}

/** The rules of one group, loaded into an engine once. */
export interface GroupEngine {
  readonly facts: readonly string[];
  /** Rejects where the engine did not answer for every rule; never answers in part. */
  readonly run: (facts: ReadonlyMap<string, FactBounds>) => Promise<Answers>;
}

export function groupEngine(translation: Translation, group: RuleGroup): GroupEngine {
  const engine = new Engine();
  for (const { name, evaluate } of translation.operators) engine.addOperator(name, evaluate);
  for (const [id, bounds] of Object.entries(translation.constants)) engine.addFact(id, bounds);
  // The engine writes its own marks into what it is given, so it gets a copy.
  for (const rule of group.rules) engine.addRule(JSON.parse(JSON.stringify(rule)) as RuleProperties);

  // Runs of one engine share a state: the end of one stops another that has not yet begun. So they queue.
  let last: Promise<unknown> = Promise.resolve();
  const run = (facts: ReadonlyMap<string, FactBounds>): Promise<Answers> => {
    const next = last.then(async () => read(await engine.run(supplied(group, translation, facts)), group));
    last = next.catch(() => undefined);
    return next;
  };
  return { facts: group.facts, run };
}

/** Every fact of the group by name: an undefined one must stop us here, not inside a comparison. */
function supplied(group: RuleGroup, translation: Translation, facts: ReadonlyMap<string, FactBounds>) {
  const given: Record<string, FactBounds> = Object.create(null);
  for (const id of group.facts) {
    const bounds = facts.get(id);
    if (!bounds) throw new Error(`\`${translation.set}\` reads \`${id}\`, which was not handed over`);
    given[id] = bounds;
  }
  return given;
}

interface EngineResult {
  readonly name: string;
  readonly result: unknown;
  readonly conditions: unknown;
}

function read(
  run: { readonly results: readonly EngineResult[]; readonly failureResults: readonly EngineResult[] },
  group: RuleGroup,
): Answers {
  const byName = new Map([...run.results, ...run.failureResults].map((result) => [result.name, result]));
  const halves = new Map<string, { certainly?: EngineResult; possibly?: EngineResult }>();
  for (const rule of group.rules) {
    const result = byName.get(rule.name);
    if (!result) throw new Error(`the second engine did not answer for \`${rule.name}\``);
    const name = partName(rule.event.params.rule, rule.event.params.part);
    const pair = halves.get(name) ?? {};
    pair[rule.event.type] = result;
    halves.set(name, pair);
  }
  const both = (rule: string | undefined, part: Part) => halves.get(partName(rule, part));
  return {
    of: (rule, part) => {
      const found = both(rule, part);
      return found && pairOf(found.certainly?.result === true, found.possibly?.result === true, part);
    },
    open: (rule, part) => {
      const found = both(rule, part);
      return found
        ? openFacts(found.certainly?.conditions as ResultNode, found.possibly?.conditions as ResultNode)
        : [];
    },
  };
}

function pairOf(certain: boolean, possible: boolean, part: string): Pair {
  if (certain && !possible)
    throw new Error(`the second engine holds \`${part}\` to be certain and impossible`);
  return { certain, possible };
}
