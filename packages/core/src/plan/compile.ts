import { blankRow } from '../facts/derive.ts';
import { type FactTable, factTables } from '../facts/factTable.ts';
import { isOpen } from '../facts/plain.ts';
import { and, FALSE, not, or, TRUE, type Truth, UNKNOWN } from '../facts/truth.ts';
import type { Constant } from '../release/condition.ts';
import { ownCopy } from '../release/digest.ts';
import type { Adoption, Release, Withdrawal } from '../release/release.ts';
import type { Rule } from '../release/rule.ts';
import { boardOf } from './board.ts';
import { concludingPrograms } from './concluding.ts';
import { ConditionTable, type Names } from './conditions.ts';
import type { Blank, LeaveToRun, Node, Plan, PlanRule, PlanSet, Program } from './plan.ts';
import { inReadingOrder, optionFacts } from './readingOrder.ts';
import { run } from './run.ts';
import { shareAcross } from './share.ts';
import { standingOf } from './standing.ts';

export interface CompileOptions {
  /** The caller's word that such releases may run; the assessment says that they do. */
  readonly allow?: readonly LeaveToRun[];
  /** Makes the releases it names, by version and digest, active. */
  readonly adoption?: Adoption;
  /** Versions that were withdrawn: they run only where `allow` says so, adopted or not, and every assessment says it. */
  readonly withdrawals?: readonly Withdrawal[];
}

/** Releases that may not run, or do not fit together. Thrown before there is any case. */
export class PlanError extends Error {
  readonly problems: readonly string[];

  constructor(problems: readonly string[]) {
    super(problems.join('; '));
    this.name = 'PlanError';
    this.problems = problems;
  }
}

/**
 * Compiles releases into one plan: the table of their distinct leaf conditions and the gate program over it.
 * Throws {@link PlanError} where a release may not run or releases disagree about a fact, table or local choice.
 */
export function compile(given: readonly Release[], options: CompileOptions = {}): Plan {
  // A release says the same in any order of its keys, down to the bytes that it passes on.
  const copies = given.map(ownCopy);
  const releases = copies.map(({ release }) => release);
  const problems: string[] = [];
  const shared = shareAcross(releases, problems);
  const allowed = new Set(options.allow ?? []);
  const facts = inReadingOrder(shared.facts, releases, problems);
  const perOption = optionFacts(facts);
  const tables = factTables(
    facts.filter((fact) => !perOption.has(fact.id)),
    facts.filter((fact) => perOption.has(fact.id)),
    {
      codes: shared.codes,
      parameters: new Map(
        [...shared.parameters].map(([id, parameter]): [string, Constant] => [id, parameter.value]),
      ),
      tables: shared.tables,
    },
  );
  const table = new ConditionTable();
  KEPT.table ??= new ConditionTable();
  const sets = copies.map(({ release, digest }): PlanSet => {
    const names: Names = {
      facts: new Map(release.facts.map((fact) => [fact.id, fact])),
      parameters: new Map(release.parameters.map((parameter) => [parameter.id, parameter])),
      conditions: release.conditions,
      codes: (list) => (list === undefined ? [] : (shared.codes.get(list) ?? [])),
      perOption,
      places: tables.patient.places,
    };
    const where = `${release.id}@${release.version}`;
    const { standing, refused } = standingOf(
      release,
      digest,
      allowed,
      options.adoption,
      options.withdrawals ?? [],
    );
    if (refused !== undefined) problems.push(`${where}: ${refused}`);
    return {
      release,
      digest,
      standing,
      population: release.population && table.enter(release.population.when, names, where),
      gate: release.scope && table.enter(release.scope, names, where),
      rules: release.rules.map((rule) => enterRule(rule, names, table, `${where}/${rule.id}`)),
      stock: release.stock,
    };
  });
  problems.push(...table.problems, ...unpinned(sets));
  if (problems.length > 0) throw new PlanError([...new Set(problems)]);
  const patient = table.program('patient');
  const option = table.program('option');
  const blank = blankOf(tables.patient, patient, table);
  return {
    sets,
    adoption: options.adoption,
    allowed,
    size: table.size,
    constants: table.constants,
    blank,
    patient,
    option,
    board: boardOf(sets, tables.option, option, blank),
    concluding: concludingPrograms(sets, patient),
    patientFacts: tables.patient,
    optionFacts: tables.option,
    order: new Map([...shared.facts.keys()].map((id, index) => [id, index])),
    facts: shared.facts,
  };
}

/** One that stays, empty: once none is left a runtime forgets how it compiled what fills them, and does so anew. */
const KEPT: { table?: ConditionTable } = {};

/** Truths of the options are worked out for each of them; only local choices among them are known before. */
function blankOf(facts: FactTable, program: Program, { size, constants }: ConditionTable): Blank {
  const row = blankRow(facts);
  // Where an instant is compared with a day in the calendar, it matters where it ends.
  for (const { place, test } of program.leaves) {
    if (test.kind === 'compare' && isOpen(row[place])) row[place] = undefined;
  }
  const truths = new Uint8Array(size);
  for (const [at, truth] of constants) truths[at] = truth;
  run(program, row, truths);
  return { row, truths };
}

/** A release runs only beside exactly the releases whose conclusions it was built on. */
function unpinned(sets: readonly PlanSet[]): string[] {
  return sets.flatMap(({ release }) =>
    (release.reads ?? []).flatMap(({ id, version, digest: sha }) =>
      sets.some((other) => other.release.id === id && other.digest === sha)
        ? []
        : [
            `${release.id}@${release.version}: it reads ${id}@${version} ${sha.slice(0, 12)}, which is not here`,
          ],
    ),
  );
}

function enterRule(rule: Rule, names: Names, table: ConditionTable, where: string): PlanRule {
  const enter = (condition: Parameters<ConditionTable['enter']>[0] | undefined): Node | undefined =>
    condition && table.enter(condition, names, where);
  const scope = enter(rule.scope);
  const when = enter(rule.when);
  if ([scope, when].some((node) => node && table.isPerOption(node))) {
    table.problems.push(`${where}: scope and when read the patient, not an option`);
  }
  const { prefers } = rule;
  return {
    rule,
    switchedOff:
      rule.local?.change === 'switched-off' || (scope !== undefined && falseByChoice(scope, table)),
    scope,
    when,
    expect: enter(rule.expect),
    excludes: enter(rule.excludes),
    remarks: enter(rule.remarks),
    prefers: prefers && ('lowest' in prefers ? prefers : { options: enter(prefers.options)! }),
  };
}

/** False whatever the facts are: local choices alone put the rule out of scope. */
function falseByChoice(node: Node, table: ConditionTable): boolean {
  const constants = new Map(table.constants);
  const truthOf = (at: Node): Truth => {
    switch (at.kind) {
      case 'fact':
        return UNKNOWN;
      case 'parameter':
        return constants.get(at.at) ?? UNKNOWN;
      case 'named':
        return truthOf(at.of[0]);
      case 'not':
        return not(truthOf(at.of[0]));
      case 'all':
        return at.of.reduce<Truth>((sofar, inner) => and(sofar, truthOf(inner)), TRUE);
      case 'any':
        return at.of.reduce<Truth>((sofar, inner) => or(sofar, truthOf(inner)), FALSE);
    }
  };
  return truthOf(node) === FALSE;
}
