import type { Planes, Room } from './planes.ts';

/** What a rule's outcome follows from. */
interface RuleParts {
  /** All cases, and those at a moment at which the rule may not run. */
  readonly whole: Uint32Array;
  readonly closed: Uint32Array;
  /** All that limits whom it is about. */
  readonly scopes: readonly [gate: Planes, own: Planes, population: Planes];
  readonly when: Planes;
}

/** The outcome of one rule for 32 cases at a time: nothing but the loop, which a runtime can then keep compiled. */
export function outcomeBits({ whole, closed, scopes, when }: RuleParts, room: Room) {
  const [gate, own, population] = scopes;
  const scope = room.planes();
  const applies = room.bits();
  const doesNotApply = room.bits();
  const undetermined = room.bits();
  const notInScope = room.bits();
  for (let word = 0; word < whole.length; word += 1) {
    const open = whole[word]! & ~closed[word]!;
    const certain = open & gate.certain[word]! & own.certain[word]! & population.certain[word]!;
    const possible = open & gate.possible[word]! & own.possible[word]! & population.possible[word]!;
    scope.certain[word] = certain;
    scope.possible[word] = possible;
    notInScope[word] = whole[word]! & ~possible;
    applies[word] = certain & when.certain[word]!;
    doesNotApply[word] = possible & ~when.possible[word]!;
    undetermined[word] = possible & when.possible[word]! & ~(certain & when.certain[word]!);
  }
  return { scope, applies, doesNotApply, undetermined, notInScope };
}
