import type { OptionState } from '../explain/assessment.ts';
import type { Leaf, Node, PlanRule } from '../plan/plan.ts';
import type { CasesJudged } from './judgeCases.ts';
import {
  allRows,
  always,
  intersection,
  isIn,
  joined,
  negated,
  noPlanes,
  type Planes,
  Room,
  union,
  without,
} from './planes.ts';

/** What a set concludes, a bit a case: at most one conclusion stands, others may still take its place. */
export interface ConclusionOverCases {
  readonly stands: ReadonlyMap<string, Uint32Array>;
  readonly possible: ReadonlyMap<string, Uint32Array>;
  readonly settled: Uint32Array;
}

/** The conclusion of a decision set for every case, in the precedence of its release. */
export function concludeCases(judged: CasesJudged, id: string): ConclusionOverCases {
  const set = judged.set(id);
  const { rows } = judged.columns;
  const { conclusions = [], defaultConclusion } = set.release;
  const closed = judged.columns.outOfPeriod(id);
  const [stands, possible] = [new Map<string, Uint32Array>(), new Map<string, Uint32Array>()];
  // Cases in which no conclusion of higher precedence is reached yet, and those in which one above may still be.
  let free = without(allRows(rows), closed);
  let open = noPlanes(rows).possible;
  const over = (concludes: string, part: 'applies' | 'undetermined'): Uint32Array =>
    set.rules
      .filter(({ rule, switchedOff }) => rule.concludes === concludes && !switchedOff)
      .map(({ rule }) => judged.rule(id, rule.id)[part])
      .reduce(union, noPlanes(rows).possible);
  for (const { id: conclusion } of conclusions) {
    const reached = intersection(free, over(conclusion, 'applies'));
    const maybe = intersection(without(free, reached), over(conclusion, 'undetermined'));
    stands.set(conclusion, reached);
    possible.set(conclusion, union(reached, maybe));
    open = union(open, maybe);
    free = without(free, reached);
  }
  if (defaultConclusion) {
    const inside = intersection(judged.truthOf(set.population).possible, judged.truthOf(set.gate).possible);
    const fallen = intersection(free, inside);
    stands.set(defaultConclusion.id, fallen);
    possible.set(defaultConclusion.id, fallen);
  }
  return { stands, possible, settled: without(allRows(rows), open) };
}

/** All-or-none compliance of a checklist for every case; `applicable` where at least one check may be. */
export interface ComplianceOverCases {
  readonly all: Planes;
  readonly applicable: Uint32Array;
  /** Counts for one case, as ranges. */
  counts(row: number): { readonly met: readonly [number, number]; readonly of: readonly [number, number] };
}

export function complyCases(judged: CasesJudged, id: string): ComplianceOverCases {
  const set = judged.set(id);
  const { rows } = judged.columns;
  const checks = set.rules
    .filter(({ switchedOff }) => !switchedOff)
    .map((plan) => ({ plan, over: judged.rule(id, plan.rule.id), expected: judged.truthOf(plan.expect) }));
  let applicable = noPlanes(rows).possible;
  const parts = [always(rows)];
  for (const { over } of checks) {
    // A check out of scope takes nothing away; one that is undetermined leaves the whole open.
    const certain = union(over.notInScope, over.doesNotApply);
    parts.push({ certain, possible: union(certain, over.undetermined) });
    applicable = union(applicable, without(allRows(rows), over.notInScope));
  }
  return {
    all: joined('all', parts, new Room(rows)),
    applicable,
    counts: (row) => {
      let [met, mayBeMet, of, mayBeOf] = [0, 0, 0, 0];
      for (const { over, expected } of checks) {
        if (isIn(over.notInScope, row)) continue;
        const isMet = isIn(over.doesNotApply, row);
        const open = isIn(expected.possible, row) && !isIn(expected.certain, row);
        if (isMet) met += 1;
        else if (isIn(over.undetermined, row) && open) mayBeMet += 1;
        if (isMet || isIn(over.scope.certain, row)) of += 1;
        else mayBeOf += 1;
      }
      return { met: [met, met + mayBeMet], of: [of, of + mayBeOf] };
    },
  };
}

/** How the options of one stock list stand, a bit a case in exactly one state; none where the set does not speak. */
export type OptionsOverCases = ReadonlyMap<string, Readonly<Record<OptionState, Uint32Array>>>;

export function optionsOverCases(judged: CasesJudged, id: string, kind: string): OptionsOverCases {
  const set = judged.set(id);
  const { rows } = judged.columns;
  const excluding = set.rules.filter(
    ({ rule, excludes, switchedOff }) => rule.of === kind && excludes && !switchedOff,
  );
  return new Map(
    (set.stock[kind] ?? []).map((item) => {
      const { leaf } = judged.columns.option(id, kind, item.id);
      const room = new Room(rows);
      const truthOf = overOption(judged, leaf, room);
      const excluded = (plan: PlanRule): Planes => {
        const { scope, when } = judged.rule(id, plan.rule.id);
        return joined('all', [scope, when, truthOf(plan.excludes!)], room);
      };
      const ruledOut = excluding.map((plan) => excluded(plan).certain).reduce(union, noPlanes(rows).certain);
      const openBy = (locked: boolean): Uint32Array =>
        excluding
          .filter(({ rule }) => (rule.locked === true) === locked)
          .map((plan) => excluded(plan).possible)
          .reduce(union, noPlanes(rows).possible);
      const held = without(openBy(true), ruledOut);
      const toConfirm = without(openBy(false), union(ruledOut, held));
      const open = without(allRows(rows), union(union(ruledOut, held), toConfirm));
      return [item.id, { 'ruled-out': ruledOut, held, 'to-confirm': toConfirm, open }] as const;
    }),
  );
}

/** The truth of conditions that look at an option as well as the patient. */
function overOption(judged: CasesJudged, leafOf: (leaf: Leaf) => Planes, room: Room): (node: Node) => Planes {
  const { rows } = judged.columns;
  const leaves = new Map(judged.plan.option.leaves.map((leaf) => [leaf.at, leaf]));
  const visit = (node: Node): Planes => {
    switch (node.kind) {
      case 'fact': {
        const leaf = leaves.get(node.at);
        return leaf ? leafOf(leaf) : judged.truthOf(node);
      }
      case 'parameter':
        return judged.truthOf(node);
      case 'named':
        return visit(node.of[0]);
      case 'not':
        return negated(visit(node.of[0]), rows, room.planes());
      default:
        return joined(node.kind, node.of.map(visit), room);
    }
  };
  return visit;
}
