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
  private readonly places = new Map<string, number>();
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
      return { kind: 'not', at: this.gate(NOT, [inner.at]), of: [inner] };
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
    return {
      kind,
      at: this.gate(
        kind === 'all' ? ALL : ANY,
        inner.map((node) => node.at),
      ),
      of: inner,
    };
  }

  private gate(op: number, inputs: readonly number[]): number {
    const perOption = inputs.some((place) => this.perOption.has(place));
    return this.place(`gate:${op}:${inputs.join()}`, perOption, (at) => {
      this.gates[perOption ? 'option' : 'patient'].push(op, at, inputs.length, ...inputs);
    });
  }

  private place(key: string, perOption: boolean, enter: (at: number) => void): number {
    const known = this.places.get(key);
    if (known !== undefined) return known;
    const at = this.size;
    this.size += 1;
    this.places.set(key, at);
    if (perOption) this.perOption.add(at);
    enter(at);
    return at;
  }

  private factLeaf(leaf: FactLeaf, names: Names, where: string): Node {
    const fact = names.facts.get(leaf.fact);
    if (!fact) return this.fault(`${where}: the fact ${leaf.fact} is not known`);
    const expected = leaf.value === undefined ? undefined : this.resolve(leaf.value, names, where);
    const test = leafTest(fact, leaf.operator, expected);
    if (!test)
      return this.fault(`${where}: ${leaf.fact} ${leaf.operator} does not fit the type ${fact.type}`);
    const perOption = names.perOption.has(fact.id);
    const key = `${leaf.operator}:${JSON.stringify(expected)}`;
    const at = this.place(`leaf:${fact.id}:${key}`, perOption, (place) => {
      this.leaves[perOption ? 'option' : 'patient'].push({
        at: place,
        fact: fact.id,
        place: names.places.get(fact.id)!,
        test,
        key,
      });
    });
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
    const key = `parameter:${parameter.id}:${leaf.operator}:${JSON.stringify(expected)}`;
    const at = this.place(key, false, (place) => this.constants.push([place, leafTruth(test, reading)]));
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
    const at = this.place('fault', false, (place) => this.constants.push([place, TRUE]));
    return { kind: 'all', at, of: [] };
  }
}

const isReference = (value: unknown): value is ParameterReference =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && 'parameter' in value;
