import type { Case, CodeList, Constant, Fact, Parameter, Release, Table } from '@dwellset/core';
import { type Concluded, conclude } from './assess.ts';
import { instant } from './dates.ts';
import { derive } from './derived.ts';
import { anything, exact, type Known } from './known.ts';
import { withCause } from './lists.ts';
import { outOfOrder, readSupplied, type Sheet } from './supplied.ts';

/** One patient at one moment, and the item looked at, if any: its `option.*` facts. */
export interface World {
  readonly case: Case;
  readonly asOf: number;
  fact(id: string): Fact;
  codes(list: string | undefined): CodeList;
  parameter(id: string): Constant;
  table(id: string): Table;
  know(id: string): Known;
  /** What another rule set concludes. */
  conclusion(set: string): Concluded;
  /** The same patient with an item in view. */
  lookingAt(item: Sheet): World;
}

export function makeWorld(releases: readonly Release[], patient: Case): World {
  const facts = new Map<string, Fact>(releases.flatMap((r) => r.facts.map((fact) => [fact.id, fact])));
  const parameters = new Map<string, Parameter>(releases.flatMap((r) => r.parameters.map((p) => [p.id, p])));
  const tables = new Map<string, Table>(releases.flatMap((r) => r.tables.map((table) => [table.id, table])));
  const lists: Readonly<Record<string, CodeList>> = Object.assign({}, ...releases.map((r) => r.codes));
  const asOf = instant(patient.asOf) as number;
  const chart: Sheet = {
    values: patient.facts,
    searched: (group) => patient.searched?.includes(group) ?? false,
    ...(patient.recordedAt === undefined ? {} : { recordedAt: patient.recordedAt }),
  };
  const codes = (list: string | undefined) => (list === undefined ? {} : (lists[list] as CodeList));

  const lookingAt = (item: Sheet): World => {
    const remembered = new Map<string, Known>();
    const supplied = (fact: Fact) =>
      readSupplied(fact, codes(fact.codes), fact.id.startsWith('option.') ? item : chart, patient);
    const read = (id: string): Known => {
      const fact = world.fact(id);
      const stated = supplied(fact);
      const conflicting = () => anything(fact, codes(fact.codes), asOf, 'conflicting', 'unknown');
      const tied = [...facts.values()].filter((f) => f.id === fact.notBefore || f.notBefore === fact.id);
      const neighbours = tied.map((other) => ({ fact: other, known: supplied(other) }));
      if (outOfOrder(fact, stated, neighbours)) return conflicting();
      if (fact.type === 'list') return withCause(fact, stated, world);
      if (fact.from === undefined) return stated;
      const computed = derive(fact, fact.from, world);
      if (!stated.usable) return computed;
      return disjoint(stated, computed) ? conflicting() : narrowed(fact, stated, computed);
    };
    const world: World = {
      case: patient,
      asOf,
      fact: (id) => facts.get(id) as Fact,
      codes,
      parameter: (id) => (parameters.get(id) as Parameter).value,
      table: (id) => tables.get(id) as Table,
      know(id) {
        const known = remembered.get(id) ?? read(id);
        remembered.set(id, known);
        return known;
      },
      conclusion: (set) => conclude(releases.find(({ id }) => id === set) as Release, world),
      lookingAt,
    };
    return world;
  };
  return lookingAt({ values: {}, searched: () => false });
}

/** No value is possible under both. */
function disjoint(one: Known, other: Known): boolean {
  if (one.may.length > 0) return !one.may.some((value) => other.may.includes(value));
  const opposed = (code: string) => {
    const pair = [one.answers[code], other.answers[code]];
    return pair.includes('true') && pair.includes('false');
  };
  return one.low > other.high || one.high < other.low || Object.keys(one.answers).some(opposed);
}

/** A statement in wider bounds takes nothing away from what follows from the other facts. */
function narrowed(fact: Fact, stated: Known, computed: Known): Known {
  const { cause, ...both } = {
    ...stated,
    low: Math.max(stated.low, computed.low),
    high: Math.min(stated.high, computed.high),
    may: stated.may.filter((value) => computed.may.includes(value)),
  };
  return exact(fact, both) ? both : { ...both, cause: cause ?? 'within-bounds' };
}
