import type {
  AmendmentRecord,
  CodeList,
  Condition,
  Evidence,
  Fact,
  Hazard,
  Parameter,
  Rule,
  Source,
  StockItem,
  Table,
} from '@dwellset/core';
import type { DocumentOf } from '../documents/kinds.ts';
import type { Library, LibrarySet, Placed } from '../library/shape.ts';

/** Everything one rule set may draw on, before it is known what it uses. */
export interface Parts {
  readonly ruleSet: DocumentOf<'rule-set'>;
  readonly rules: readonly Rule[];
  readonly stock: Readonly<Record<string, readonly StockItem[]>>;
  readonly conditions: ReadonlyMap<string, Condition>;
  /** Dictionary order, then local facts, then those the set derives for itself. */
  readonly facts: ReadonlyMap<string, Fact>;
  readonly codes: ReadonlyMap<string, CodeList>;
  readonly parameters: ReadonlyMap<string, Parameter>;
  readonly tables: ReadonlyMap<string, Table>;
  readonly evidence: ReadonlyMap<string, Evidence>;
  readonly sources: ReadonlyMap<string, Source>;
  readonly hazards: ReadonlyMap<string, Hazard>;
  /** The other rule sets, as published or as amended: their conclusions may be read. */
  readonly others: (set: string) => OtherSet | undefined;
}

interface OtherSet {
  readonly parts: Parts;
  readonly record?: AmendmentRecord;
}

export function partsOf(library: Library, set: LibrarySet): Parts {
  const ruleSet = set.ruleSet.value;
  return {
    ruleSet,
    rules: ruleSet.rules.flatMap((id) => {
      const found = set.rules.get(id);
      if (found === undefined) return [];
      const { $schema: _, ...rule } = found.value;
      return [rule];
    }),
    stock: Object.fromEntries(
      (ruleSet.stock ?? []).flatMap((kind) => {
        const found = set.stock.get(kind);
        return found ? [[kind, stockItems(found.value)]] : [];
      }),
    ),
    conditions: new Map(Object.entries(ruleSet.conditions)),
    facts: new Map([...values(library.facts), ...ruleSet.derived.map((fact) => [fact.id, fact] as const)]),
    codes: new Map(values(library.codes)),
    parameters: new Map(
      values(library.parameters).map(([id, parameter]) => [id, { ...parameter, value: parameter.default }]),
    ),
    tables: new Map(values(library.tables)),
    evidence: new Map(values(library.evidence)),
    sources: new Map(values(library.sources)),
    hazards: new Map(values(library.hazards)),
    others: (id) => {
      const other = library.sets.get(id);
      return other && { parts: partsOf(library, other) };
    },
  };
}

/** What a release keeps of a stock list. */
export const stockItems = (list: Pick<DocumentOf<'stock'>, 'options'>): StockItem[] =>
  list.options.map(({ id, title, facts }) => ({ id, title, facts }));

const values = <T>(index: ReadonlyMap<string, Placed<T>>): (readonly [string, T])[] =>
  [...index].map(([id, { value }]) => [id, value] as const);
