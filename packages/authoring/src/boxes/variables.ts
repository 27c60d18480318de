import {
  type CaseValue,
  type ExactValue,
  type Fact,
  type Leaf,
  type Node,
  type Truth,
  witnessOf,
} from '@dwellset/core';
import { valuesOf } from '../coverage/atoms.ts';
import { caseValueOf } from './caseValue.ts';
import { codeSets } from './codeSets.ts';
import type { Scene } from './scene.ts';

/** One value of a variable that comparisons can tell from its others, with the truths it gives them. */
export interface Value {
  /** As a case states it; absent where the fact is missing. */
  readonly value: CaseValue | undefined;
  readonly truths: readonly Truth[];
}

/** A fact that a case may state, and the comparisons that hang on it alone. */
export interface Variable {
  readonly fact: string;
  readonly places: readonly number[];
  readonly values: readonly Value[];
  /** False where not every combination of its codes is listed. */
  readonly complete: boolean;
}

export interface Variables {
  readonly variables: readonly Variable[];
  /** Truths while nothing is known; those of labels and of the moment are settled. */
  readonly start: Uint8Array;
  /** Facts that follow from several others, and are varied as if they did not. */
  readonly bonded: readonly string[];
  /** The moment settles some comparison, so that another one may settle it otherwise. */
  readonly settledByMoment: boolean;
  readonly complete: boolean;
}

/** The variables behind some conditions, each with the values that these can tell apart. */
export function variablesOf(
  scene: Scene,
  nodes: readonly Node[],
  { missing = false }: { readonly missing?: boolean } = {},
): Variables {
  const start = scene.nothing.truths;
  const byRoot = new Map<string, Leaf[]>();
  let settledByMoment = false;
  for (const leaf of scene.leavesUnder(nodes)) {
    const [root] = scene.rootsOf(leaf.fact);
    if (root === undefined) settledByMoment ||= !leaf.fact.startsWith('option.');
    else byRoot.set(root, [...(byRoot.get(root) ?? []), leaf]);
  }
  const variables = [...byRoot].map(([root, leaves]) => variableOf(scene, root, leaves, missing, start));
  return {
    variables,
    start,
    bonded: variables.flatMap(({ fact }) => (scene.fact(fact).from === undefined ? [] : [fact])),
    settledByMoment,
    complete: !settledByMoment && variables.every(({ complete }) => complete),
  };
}

function variableOf(
  scene: Scene,
  root: string,
  leaves: readonly Leaf[],
  missing: boolean,
  start: Uint8Array,
): Variable {
  const fact = scene.fact(root);
  const { values, complete } = candidates(scene, fact, leaves);
  const asksWhetherRecorded = leaves.some(({ test }) => test.kind === 'recorded');
  const stated: CaseValue[] = values.map((value) => caseValueOf(fact, value, scene.codesOf(fact)));
  if (fact.type === 'list') stated.push([]);
  const places = leaves.map(({ at }) => at);
  const found = new Map<string, Value>();
  const add = (value: CaseValue | undefined, truths: Uint8Array): void => {
    const own = places.map((place) => truths[place] as Truth);
    if (!found.has(own.join())) found.set(own.join(), { value, truths: own });
  };
  for (const value of [...stated, ...(asksWhetherRecorded ? [null] : [])]) {
    const { truths, readings } = scene.lookAt(root, value);
    // What is refused is not a value of the fact.
    if (value === null || readings.get(root)?.cause === undefined) add(value, truths);
  }
  if (missing) add(undefined, start);
  return { fact: root, places, values: [...found.values()], complete };
}

/** Usual values first: they make the more readable patient. */
const usualFirst = ({ usual }: Fact, values: Iterable<number>): number[] => {
  const [low, high] = usual ?? [-Infinity, Infinity];
  const isUsual = (value: number): boolean => value >= low && value <= high;
  const all = [...new Set(values)];
  return [...all.filter(isUsual), ...all.filter((value) => !isUsual(value))];
};

/** Exact values that between them give the comparisons every combination of truths that one fact can give. */
function candidates(
  scene: Scene,
  fact: Fact,
  leaves: readonly Leaf[],
): { readonly values: readonly ExactValue[]; readonly complete: boolean } {
  const codes = scene.codesOf(fact);
  switch (fact.type) {
    case 'boolean':
      return { values: [true, false], complete: true };
    case 'code':
      return { values: codes, complete: true };
    case 'codes':
      return codeSets(scene, fact, leaves, codes);
    case 'text':
      return { values: ['charted'], complete: true };
    case 'list':
      return { values: [], complete: false };
    case 'number':
    case 'date':
    case 'date-time': {
      const own = leaves.filter((leaf) => leaf.fact === fact.id);
      const values = [...(own.length > 0 ? valuesOf(fact, own) : []), ...behind(scene, fact, leaves)];
      return { values: usualFirst(fact, values.length > 0 ? values : valuesOf(fact, [])), complete: true };
    }
  }
}

/** Values of a number, day or instant behind those of the facts that follow from it. */
function behind(scene: Scene, root: Fact, leaves: readonly Leaf[]): number[] {
  const derived = [...new Set(leaves.map(({ fact }) => fact))].filter((id) => id !== root.id);
  return derived.flatMap((id) => {
    const fact = scene.fact(id);
    const own = leaves.filter((leaf) => leaf.fact === id);
    const targets: readonly ExactValue[] =
      fact.type === 'code'
        ? scene.codesOf(fact)
        : fact.type === 'boolean'
          ? [true, false]
          : valuesOf(fact, own);
    return targets.flatMap((target) => back(scene, root.id, fact, target));
  });
}

function back(scene: Scene, root: string, fact: Fact, target: ExactValue): number[] {
  if (fact.id === root) return typeof target === 'number' ? [target] : [];
  if (fact.from === undefined) return [];
  const found = witnessOf(fact, target, scene.inputs);
  return [...(found ?? [])].flatMap(([id, value]) =>
    value === null ? [] : back(scene, root, scene.fact(id), value),
  );
}
