import type { Case, Condition, Fact, Parameter, Release, Rule, Table } from '@dwellset/core';
import { makeFact, makeRelease, makeRule } from '../reference/release.ts';

/** A worked example in brief: one file holds the facts, tables, rules and cases of one question. */
export interface WorkedExample {
  readonly title: string;
  /** List → its codes. */
  readonly codes: Readonly<Record<string, readonly string[]>>;
  readonly facts: Readonly<Record<string, Omit<Fact, 'id' | 'title' | 'question'>>>;
  readonly parameters?: Readonly<Record<string, Pick<Parameter, 'type' | 'value' | 'unit' | 'codes'>>>;
  readonly tables?: Readonly<Record<string, BriefTable>>;
  readonly conditions?: Readonly<Record<string, Condition>>;
  readonly sets: readonly BriefSet[];
  readonly cases: readonly BriefCase[];
}

type Cell = number | string | boolean | null;

interface BriefTable extends Pick<Table, 'key' | 'columns' | 'otherwise'> {
  readonly rows: Readonly<Record<string, Readonly<Record<string, Cell>>>>;
}

interface BriefSet {
  readonly id: string;
  readonly shape: Release['shape'];
  readonly conclusions?: readonly string[];
  readonly default?: string;
  /** Kind → option → its attributes. */
  readonly stock?: Readonly<Record<string, Readonly<Record<string, Readonly<Record<string, unknown>>>>>>;
  readonly rules: readonly (Partial<Rule> & { readonly id: string })[];
}

export interface BriefCase {
  readonly title: string;
  readonly asOf: string;
  readonly timeZone?: string;
  readonly searched?: readonly string[];
  /** Local choices made otherwise in this case. */
  readonly choices?: Readonly<Record<string, Parameter['value']>>;
  readonly facts: Case['facts'];
  /** By rule set. */
  readonly expect: Readonly<Record<string, Expected>>;
}

export interface Expected {
  /** Outcomes, or checklist words. */
  readonly rules?: Readonly<Record<string, string>>;
  readonly speaks?: readonly string[];
  readonly compliance?: object;
  readonly conclusion?: string;
  readonly settled?: boolean;
  readonly possible?: readonly string[];
  readonly options?: Readonly<Record<string, object>>;
  readonly first?: string;
  readonly order?: readonly string[];
  readonly provisional?: boolean;
  readonly remarks?: Readonly<Record<string, readonly string[]>>;
}

const titled = (id: string) => ({ id, title: id });
const mapped = <In, Out>(given: Readonly<Record<string, In>>, make: (value: In, key: string) => Out) =>
  Object.fromEntries(Object.entries(given).map(([key, value]) => [key, make(value, key)]));

/** The example's rule sets as releases, with the local choices of one case. */
export function releasesOf(example: WorkedExample, choices: BriefCase['choices'] = {}): Release[] {
  const facts = Object.entries(example.facts).map(([id, fact]) => makeFact(id, fact));
  const parameters = Object.entries(example.parameters ?? {}).map(
    ([id, parameter]): Parameter => ({
      ...titled(id),
      ...parameter,
      default: parameter.value,
      value: choices[id] ?? parameter.value,
      cautious: 'neither',
      positions: [],
    }),
  );
  const tables = Object.entries(example.tables ?? {}).map(
    ([id, table]): Table => ({
      ...titled(id),
      ...table,
      rows: mapped(table.rows, (row) => mapped(row, (value) => ({ value }))),
    }),
  );
  return example.sets.map((set) =>
    makeRelease({
      ...titled(set.id),
      shape: set.shape,
      facts: facts.filter(({ id }) => set.shape === 'choice' || !id.startsWith('option.')),
      codes: mapped(example.codes, (codes) => Object.fromEntries(codes.map((code) => [code, code]))),
      parameters,
      tables,
      conditions: example.conditions ?? {},
      rules: set.rules.map((rule) => makeRule(rule.id, rule)),
      stock: mapped(set.stock ?? {}, (options) =>
        Object.entries(options).map(([id, attributes]) => ({ ...titled(id), facts: attributes })),
      ),
      ...(set.conclusions ? { conclusions: set.conclusions.map(titled) } : {}),
      ...(set.default ? { defaultConclusion: titled(set.default) } : {}),
    }),
  );
}

/** The case as a ward would send it, everything recorded at the moment it is about. */
export function caseOf({ asOf, timeZone = 'Europe/London', searched, facts }: BriefCase): Case {
  return { asOf, timeZone, recordedAt: asOf, facts, ...(searched ? { searched } : {}) };
}
