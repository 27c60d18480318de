import type { Node, Plan, PlanSet, Program } from './plan.ts';
import { programOf } from './program.ts';

/** For each set that another one reads: only the leaves and gates that its rules and limits rest on. */
export function concludingPrograms(sets: readonly PlanSet[], patient: Program): Plan['concluding'] {
  const read = new Set(
    sets.flatMap(({ release }) =>
      release.facts.flatMap(({ from }) => (from && 'conclusion' in from ? [from.conclusion] : [])),
    ),
  );
  const own = sets.filter(({ release }) => read.has(release.id));
  return new Map(own.map((set) => [set.release.id, { set, program: partOf(patient, placesOf(set)) }]));
}

function placesOf(set: PlanSet): ReadonlySet<number> {
  const places = new Set<number>();
  const visit = (node: Node | undefined): void => {
    if (node === undefined) return;
    places.add(node.at);
    if (node.kind !== 'fact' && node.kind !== 'parameter') node.of.forEach(visit);
  };
  for (const node of [set.population, set.gate]) visit(node);
  for (const { scope, when, expect } of set.rules) for (const node of [scope, when, expect]) visit(node);
  return places;
}

/** The leaves and gates of a program that fill certain places; gates stay in their order. */
function partOf({ leaves, gates }: Program, places: ReadonlySet<number>): Program {
  const kept: number[] = [];
  for (let next = 0; next < gates.length; ) {
    const end = next + 3 + gates[next + 2]!;
    if (places.has(gates[next + 1]!)) kept.push(...gates.subarray(next, end));
    next = end;
  }
  return programOf(
    leaves.filter(({ at }) => places.has(at)),
    kept,
  );
}
