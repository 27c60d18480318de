import type { CheckWord, Compliance, ConclusionResult, Outcome, Reading, Release } from '@dwellset/core';
import { fails, type Pair } from '../bounds/pair.ts';
import { type SecondEngine, secondEngine } from '../engine/secondEngine.ts';
import { checkWord, comply } from './checklist.ts';
import { type ChoiceStanding, choose } from './choice.ts';
import { conclude } from './conclusion.ts';
import { factsFor } from './factsFor.ts';
import { judgeOption, type OptionStanding } from './option.ts';
import { aboutPatient, type Standing, standings } from './standing.ts';

/** The facts of one case as the second engine needs them: the patient's, and those of any option. */
export interface CaseReadings {
  readonly patient: ReadonlyMap<string, Reading>;
  /** Empty where there is no such option. */
  readonly option: (kind: string, option: string) => ReadonlyMap<string, Reading>;
}

/** Everything the second engine says of one rule set for one case. */
export interface SecondResult {
  readonly outcomes: ReadonlyMap<string, Outcome>;
  readonly checks: ReadonlyMap<string, CheckWord>;
  readonly conclusion?: Pick<ConclusionResult, 'id' | 'settled' | 'possible'>;
  readonly compliance?: Compliance;
  readonly choices?: readonly ChoiceStanding[];
}

/** How the item in the hand is asked for among the options. */
const CHOSEN = 'chosen';

export async function judgeRuleSet(release: Release, readings: CaseReadings): Promise<SecondResult> {
  const engine = secondEngine(release);
  const answers = await engine.patient.run(factsFor(engine.patient, readings.patient));
  const rules = standings(release, answers, engine.switchedOff);
  const checks = rules.filter(({ rule }) => rule.expect);
  const about = aboutPatient(answers);
  const compliance = release.shape === 'checklist' ? comply(checks) : undefined;
  return {
    outcomes: new Map(rules.map(({ rule, outcome }) => [rule.id, outcome])),
    checks: new Map(checks.map((check) => [check.rule.id, checkWord(check, answers, readings.patient)])),
    ...(release.shape === 'decision' ? { conclusion: conclude(release, rules, about) } : {}),
    ...(compliance ? { compliance } : {}),
    ...(release.shape === 'choice'
      ? { choices: await judgeStock(release, engine, rules, about, readings) }
      : {}),
  };
}

/** A release outside its period is not run: no rule is about anybody, nothing is concluded or offered. */
export function notRun(release: Release): SecondResult {
  return {
    outcomes: new Map(release.rules.map(({ id }) => [id, 'not-in-scope'])),
    checks: new Map(release.rules.flatMap(({ id, expect }) => (expect ? [[id, 'not-applicable']] : []))),
    ...(release.shape === 'decision' ? { conclusion: { settled: true, possible: [] } } : {}),
    ...(release.shape === 'choice' ? { choices: [] } : {}),
  };
}

async function judgeStock(
  release: Release,
  engine: SecondEngine,
  rules: readonly Standing[],
  about: Pair,
  readings: CaseReadings,
): Promise<readonly ChoiceStanding[]> {
  const choices: ChoiceStanding[] = [];
  for (const [kind, group] of engine.options) {
    const ofKind = rules.filter(({ rule }) => rule.of === kind);
    const order = ofKind.map(({ rule }) => rule.id);
    const judge = async (option: string): Promise<OptionStanding> => {
      const read = readings.option(kind, option);
      return judgeOption(option, ofKind, await group.run(factsFor(group, read)), read);
    };
    const options: OptionStanding[] = [];
    for (const { id } of release.stock[kind] ?? []) options.push(await judge(id));
    const item = readings.option(kind, CHOSEN).size > 0 ? await judge(CHOSEN) : undefined;
    const choice = choose(kind, options, order, about);
    const isSaid = item !== undefined && (!fails(about) || item.state === 'ruled-out');
    // A set that is not about this patient has nothing to say of a kind in which it rules nothing out.
    if (fails(about) && choice.options.length === 0 && !isSaid) continue;
    choices.push({ ...choice, ...(isSaid ? { chosen: item } : {}) });
  }
  return choices;
}
