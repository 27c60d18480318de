import { TRUE, type Truth } from '../facts/truth.ts';
import type {
  Condition,
  Constant,
  FactLeaf,
  ParameterLeaf,
  ParameterReference,
} from '../release/condition.ts';
import type { Fact } from '../release/fact.ts';
import type { Parameter } from '../release/parameter.ts';
import { constantReading, leafTest, leafTruth } from './leaf.ts';
import { ALL, ANY, type Leaf, NOT, type Node, type Program } from './plan.ts';
import { programOf } from './program.ts';

/** What the conditions of one release may name. */
export interface Names {
  readonly facts: ReadonlyMap<string, Fact>;
  readonly parameters: ReadonlyMap<string, Parameter>;
  readonly conditions: Readonly<Record<string, Condition>>;
  readonly codes: (list: string | undefined) => readonly string[];
  readonly perOption: ReadonlySet<string>;
  /** Where each fact stands among the readings of a case. */
  readonly places: ReadonlyMap<string, number>;
}

/** Enters conditions into one table of truths; equal leaves and equal gates share a place. */
export class ConditionTable {
  readonly constants: [number, Truth][] = [];
  readonly problems: string[] = [];
  size = 0;
  /** Where gates and local choices stand, and by fact where its leaves stand. */
  private readonly places = new Map<string, number>();
  private readonly ofFact = new Map<string, Map<string, number>>();
  private readonly perOption = new Set<number>();
  private readonly leaves = { patient: [] as Leaf[], option: [] as Leaf[] };
  private readonly gates = { patient: [] as number[], option: [] as number[] };

  /** The program that runs before the options are looked at, or the one that runs for each of them. */
  program(pass: 'patient' | 'option'): Program {
    return programOf(this.leaves[pass], this.gates[pass]);
  }

  isPerOption(node: Node): boolean {
    return this.perOption.has(node.at);
  }

  enter(condition: Condition, names: Names, where: string, open: readonly string[] = []): Node {
    if ('all' in condition) return this.group('all', condition.all, names, where, open);
    if ('any' in condition) return this.group('any', condition.any, names, where, open);
    if ('not' in condition) {
      const inner = this.enter(condition.not, names, where, open);
      const of: [Node] = [inner];
      return { kind: 'not', at: this.gate(NOT, of), of };
    }
    if ('condition' in condition) {
      const name = condition.condition;
      const named = Object.hasOwn(names.conditions, name) ? names.conditions[name] : undefined;
      if (named === undefined || open.includes(name)) {
        return this.fault(
          `${where}: the condition ${name} is ${named === undefined ? 'not known' : 'circular'}`,
        );
      }
      const inner = this.enter(named, names, where, [...open, name]);
      return { kind: 'named', name, at: inner.at, of: [inner] };
    }
    if ('fact' in condition) return this.factLeaf(condition, names, where);
    if ('parameter' in condition) return this.parameterLeaf(condition, names, where);
    return this.fault(`${where}: a condition has none of the known keys`);
  }

  private group(
    kind: 'all' | 'any',
    of: readonly Condition[],
    names: Names,
    where: string,
    open: readonly string[],
  ): Node {
    if (of.length === 0) return this.fault(`${where}: an empty group`);
    const inner = of.map((condition) => this.enter(condition, names, where, open));
    return { kind, at: this.gate(kind === 'all' ? ALL : ANY, inner), of: inner };
  }

  private gate(op: number, of: readonly Node[]): number {
    let key = `${op}`;
    let perOption = false;
    for (const { at } of of) {
      key += `,${at}`;
      perOption ||= this.perOption.has(at);
    }
    const known = this.places.get(key);
    if (known !== undefined) return known;
    const place = this.place(perOption);
    this.places.set(key, place);
    this.gates[perOption ? 'option' : 'patient'].push(op, place, of.length, ...of.map(({ at }) => at));
    return place;
  }

  /** A new place. */
  private place(perOption: boolean): number {
    const at = this.size;
    this.size += 1;
    if (perOption) this.perOption.add(at);
    return at;
  }

  private factLeaf(leaf: FactLeaf, names: Names, where: string): Node {
    const fact = names.facts.get(leaf.fact);
    if (!fact) return this.fault(`${where}: the fact ${leaf.fact} is not known`);
    const expected = leaf.value === undefined ? undefined : this.resolve(leaf.value, names, where);
    const key = `${leaf.operator}:${textOf(expected)}`;
    let own = this.ofFact.get(fact.id);
    if (own === undefined) {
      own = new Map();
      this.ofFact.set(fact.id, own);
    }
    let at = own.get(key);
    if (at === undefined) {
      const test = leafTest(fact, leaf.operator, expected);
      if (!test)
        return this.fault(`${where}: ${leaf.fact} ${leaf.operator} does not fit the type ${fact.type}`);
      const perOption = names.perOption.has(fact.id);
      at = this.place(perOption);
      own.set(key, at);
      const place = names.places.get(fact.id)!;
      this.leaves[perOption ? 'option' : 'patient'].push({ at, fact: fact.id, place, test, key });
    }
    const parameter = isReference(leaf.value) ? leaf.value.parameter : undefined;
    return { kind: 'fact', at, fact: fact.id, operator: leaf.operator, expected, parameter };
  }

  private parameterLeaf(leaf: ParameterLeaf, names: Names, where: string): Node {
    const parameter = names.parameters.get(leaf.parameter);
    if (!parameter) return this.fault(`${where}: the parameter ${leaf.parameter} is not known`);
    const expected = this.resolve(leaf.value, names, where);
    const test = leafTest(parameter, leaf.operator, expected);
    if (!test)
      return this.fault(
        `${where}: ${leaf.parameter} ${leaf.operator} does not fit the type ${parameter.type}`,
      );
    const reading = constantReading(
      parameter as unknown as Fact,
      parameter.value,
      names.codes(parameter.codes),
    );
    const key = `parameter:${parameter.id}:${leaf.operator}:${textOf(expected)}`;
    const at = this.constant(key, leafTruth(test, reading));
    return {
      kind: 'parameter',
      at,
      parameter: parameter.id,
      operator: leaf.operator,
      expected,
      value: parameter.value,
    };
  }

  private resolve(value: Constant | ParameterReference, names: Names, where: string): Constant {
    if (!isReference(value)) return value;
    const parameter = names.parameters.get(value.parameter);
    if (parameter) return parameter.value;
    this.problems.push(`${where}: the parameter ${value.parameter} is not known`);
    return false;
  }

  /** Notes what is wrong and stands in with a place that is true; a plan with problems is never handed out. */
  private fault(problem: string): Node {
    this.problems.push(problem);
    return { kind: 'all', at: this.constant('fault', TRUE), of: [] };
  }

  private constant(key: string, truth: Truth): number {
    const known = this.places.get(key);
    if (known !== undefined) return known;
    const at = this.place(false);
    this.places.set(key, at);
    this.constants.push([at, truth]);
    return at;
  }
}

const isReference = (value: unknown): value is ParameterReference =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && 'parameter' in value;

/** Two constants with the same text are the same. */
const textOf = (value: Constant | undefined): string =>
  typeof value === 'string' ? `"${value}"` : typeof value === 'object' ? JSON.stringify(value) : `${value}`;
