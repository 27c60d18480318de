import type { Planes, Room } from './planes.ts';

/** One rule over many cases: a bit a case in exactly one of the four, or in none where it is switched off. */
export interface RuleOverCases {
  readonly scope: Planes;
  readonly when: Planes;
  readonly applies: Uint32Array;
  readonly doesNotApply: Uint32Array;
  readonly undetermined: Uint32Array;
  readonly notInScope: Uint32Array;
  readonly switchedOff: boolean;
}

/** What a rule's outcome follows from. */
interface RuleParts {
  /** All cases, and those at a moment at which the rule may not run. */
  readonly whole: Uint32Array;
  readonly closed: Uint32Array;
  /** All that limits whom it is about. */
  readonly scopes: readonly [gate: Planes, own: Planes, population: Planes];
  readonly when: Planes;
}

/** Rows of bits of one rule, in their order. */
const ROWS = 8;

/**
 * What a rule comes to, in one stretch of memory. A row of it is given a name of its own when somebody reads it: thousands
 * of rules would otherwise leave a dozen arrays each to be looked after.
 */
export class RuleBits implements RuleOverCases {
  readonly switchedOff: boolean;
  private readonly bits: Uint32Array;
  private readonly words: number;
  private rows: (Uint32Array | undefined)[] | undefined;

  constructor(parts: RuleParts, switchedOff: boolean, room: Room) {
    this.switchedOff = switchedOff;
    this.words = parts.whole.length;
    this.bits = room.bits(ROWS);
    judge(parts, this.bits);
  }

  get scope(): Planes {
    return { certain: this.row(0), possible: this.row(1) };
  }

  get when(): Planes {
    return { certain: this.row(2), possible: this.row(3) };
  }

  get applies(): Uint32Array {
    return this.row(4);
  }

  get doesNotApply(): Uint32Array {
    return this.row(5);
  }

  get undetermined(): Uint32Array {
    return this.row(6);
  }

  get notInScope(): Uint32Array {
    return this.row(7);
  }

  private row(at: number): Uint32Array {
    this.rows ??= [];
    this.rows[at] ??= this.bits.subarray(at * this.words, (at + 1) * this.words);
    return this.rows[at];
  }
}

/** The outcome of one rule for 32 cases at a time: nothing but the loop, which a runtime can then keep compiled. */
function judge({ whole, closed, scopes, when }: RuleParts, bits: Uint32Array): void {
  const [gate, own, population] = scopes;
  const words = whole.length;
  for (let word = 0; word < words; word += 1) {
    const open = whole[word]! & ~closed[word]!;
    const certain = open & gate.certain[word]! & own.certain[word]! & population.certain[word]!;
    const possible = open & gate.possible[word]! & own.possible[word]! & population.possible[word]!;
    const isThere = when.certain[word]!;
    const mayBeThere = when.possible[word]!;
    bits[word] = certain;
    bits[word + words] = possible;
    bits[word + words * 2] = isThere;
    bits[word + words * 3] = mayBeThere;
    bits[word + words * 4] = certain & isThere;
    bits[word + words * 5] = possible & ~mayBeThere;
    bits[word + words * 6] = possible & mayBeThere & ~(certain & isThere);
    bits[word + words * 7] = whole[word]! & ~possible;
  }
}
