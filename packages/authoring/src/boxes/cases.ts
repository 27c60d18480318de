import { type CaseValue, type ExactValue, type Fact, witnessOf } from '@dwellset/core';
import { caseValueOf } from './caseValue.ts';
import type { Facts, Scene } from './scene.ts';
import type { Box } from './search.ts';

/**
 * Facts of a case for a box. What follows from several facts is stated through these where values for them are found,
 * and else as it is: the core then holds it against whatever bounds its inputs leave.
 */
export function* casesOf(scene: Scene, box: Box): Generator<Facts> {
  const stated = Object.fromEntries(
    [...box].flatMap(([{ fact }, { value }]) => (value === undefined ? [] : [[fact, value] as const])),
  );
  const through = statedThroughInputs(scene, stated);
  if (through) yield through;
  yield stated;
}

function statedThroughInputs(scene: Scene, stated: Facts): Facts | undefined {
  const derived = Object.keys(stated).filter((id) => scene.fact(id).from !== undefined);
  if (derived.length === 0) return undefined;
  const facts = new Map(Object.entries(stated));
  for (const id of derived) {
    const target = exactOf(scene.fact(id), stated[id]!);
    const inputs = target === undefined ? undefined : inputsFor(scene, scene.fact(id), target);
    if (inputs === undefined) continue;
    facts.delete(id);
    for (const [input, value] of inputs) {
      const known = facts.get(input);
      if (known !== undefined && JSON.stringify(known) !== JSON.stringify(value)) return undefined;
      facts.set(input, value);
    }
  }
  return Object.fromEntries(facts);
}

/** Supplied facts that a derived one follows from, all the way down. */
function inputsFor(
  scene: Scene,
  fact: Fact,
  target: ExactValue,
): readonly (readonly [string, CaseValue])[] | undefined {
  if (fact.from === undefined) return [[fact.id, caseValueOf(fact, target, scene.codesOf(fact))]];
  if (scene.isTakenAsGiven(fact)) return undefined;
  const found = witnessOf(fact, target, scene.inputs);
  if (found === undefined) return undefined;
  const inputs: (readonly [string, CaseValue])[] = [];
  for (const [id, value] of found) {
    const below = value === null ? ([[id, null]] as const) : inputsFor(scene, scene.fact(id), value);
    if (below === undefined) return undefined;
    inputs.push(...below);
  }
  return inputs;
}

/** What a case states of a derived fact, as the search for its inputs takes it. */
function exactOf({ type }: Fact, value: CaseValue): ExactValue | undefined {
  if (typeof value === 'object' && value !== null && 'value' in value) {
    return exactOf({ type } as Fact, value.value as CaseValue);
  }
  if (typeof value === 'string' && type.startsWith('date')) {
    const instant = Date.parse(value);
    return type === 'date' ? instant / 86_400_000 : instant;
  }
  return typeof value === 'object' ? undefined : value;
}
