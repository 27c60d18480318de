import { type CaseValue, FALSE, type Node, TRUE, type Truth } from '@dwellset/core';
import type { Facts, Scene } from '../boxes/scene.ts';
import { variablesOf } from '../boxes/variables.ts';
import type { Cuts } from './expand.ts';
import { Owners } from './owners.ts';
import { EVERYBODY, type Layout, NOBODY, type Region } from './region.ts';
import { isWanted, type Wanted } from './wanted.ts';

interface Cut {
  readonly owner: number;
  /** As a case states them; none where nothing is known but that comparisons are true or false. */
  readonly values: readonly CaseValue[];
}

/**
 * The facts of the patient behind conditions that are read for every item of a stock list, cut so finely that each
 * comparison of each item is a set of atoms: what an item's label says settles some comparisons, and moves the limits
 * of others.
 */
export class StockCuts {
  private readonly owners = new Owners();
  private readonly cuts = new Map<string, Cut>();
  private readonly scenes: readonly Scene[];

  /** One scene for each item. */
  constructor(scenes: readonly Scene[], nodes: readonly Node[]) {
    this.scenes = scenes;
    const values = new Map<string, Map<string, CaseValue>>();
    const loose = new Set<string>();
    for (const scene of scenes) {
      for (const variable of variablesOf(scene, nodes).variables) {
        const { fact } = variable;
        if (!variable.complete || fact.startsWith('option.')) loose.add(fact);
        const known = values.get(fact) ?? new Map<string, CaseValue>();
        for (const { value } of variable.values) {
          if (value !== undefined) known.set(JSON.stringify(value), value);
        }
        values.set(fact, known);
      }
    }
    for (const [fact, known] of values) {
      if (loose.has(fact)) continue;
      this.cuts.set(fact, { owner: this.owners.add(fact, known.size, false), values: [...known.values()] });
    }
  }

  get layout(): Layout {
    return this.owners;
  }

  /** What comparisons mean for one item. */
  of(index: number, nodes: readonly Node[]): Cuts {
    const scene = this.scenes[index]!;
    const factOf = new Map(scene.leavesUnder(nodes).map(({ at, fact }) => [at, fact]));
    const constants = new Map(scene.plan.constants);
    return {
      layout: this.owners,
      regionOfLeaf: (at, wanted) => {
        const constant = constants.get(at);
        if (constant !== undefined) return isWanted(constant as Truth, wanted) ? EVERYBODY : NOBODY;
        const fact = factOf.get(at)!;
        const [root] = scene.rootsOf(fact);
        const isLabel = root === undefined && fact.startsWith('option.');
        if (isLabel) return isWanted(scene.nothing.truths[at] as Truth, wanted) ? EVERYBODY : NOBODY;
        const cut = root === undefined ? undefined : this.cuts.get(root);
        return cut === undefined
          ? this.looseRegion(`${index} ${at}`, wanted)
          : this.owners.boxOf(
              cut.owner,
              cut.values.map((value) => isWanted(scene.lookAt(root!, value).truths[at] as Truth, wanted)),
            );
      },
    };
  }

  /** A patient of a box, as far as a case can state him. */
  factsIn(box: Region[number]): Facts {
    const first = this.owners.firstIn(box);
    return Object.fromEntries(
      [...this.cuts].flatMap(([fact, { owner, values }]) => {
        const value = first.has(owner) ? values[first.get(owner)!] : undefined;
        return value === undefined ? [] : [[fact, value] as const];
      }),
    );
  }

  private looseRegion(key: string, wanted: Wanted): Region {
    const known = this.cuts.get(key) ?? { owner: this.owners.add(key, 2, true), values: [] };
    this.cuts.set(key, known);
    return this.owners.boxOf(
      known.owner,
      [TRUE, FALSE].map((truth) => isWanted(truth as Truth, wanted)),
    );
  }
}
