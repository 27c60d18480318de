import { FALSE, type Leaf, type Node, TRUE, type Truth, UNKNOWN } from '@dwellset/core';
import type { Scene } from '../boxes/scene.ts';
import { variablesOf } from '../boxes/variables.ts';
import { type Atom, atomsOf } from '../coverage/atoms.ts';
import type { Cuts } from './expand.ts';
import { Owners } from './owners.ts';
import { EVERYBODY, type Layout, NOBODY, type Region } from './region.ts';
import { isWanted, type Wanted } from './wanted.ts';

/** What a comparison hangs on: the atoms of one fact, the answers to several codes, or nothing that a case states. */
type Meaning =
  | { readonly kind: 'settled'; readonly truth: Truth }
  | { readonly kind: 'atoms'; readonly owner: number; readonly truths: readonly Truth[] }
  /** True where one of these is answered yes, or turned round. */
  | { readonly kind: 'answers'; readonly owners: readonly number[]; readonly negated: boolean };

/**
 * What conditions can tell apart: each fact behind them cut into atoms, so that a comparison is a set of atoms. Every
 * combination of truths that a patient can give is among the combinations of atoms. There may be more, where two
 * facts hang together: what holds of all combinations holds of all patients, and what holds of one is only possible.
 */
export class Alphabet implements Cuts {
  private readonly owners = new Owners();
  private readonly meanings = new Map<number, Meaning>();
  private readonly regions = new Map<string, Region>();

  constructor(scene: Scene, nodes: readonly Node[]) {
    const byRoot = new Map<string, Leaf[]>();
    for (const leaf of scene.leavesUnder(nodes)) {
      const [root] = scene.rootsOf(leaf.fact);
      if (root !== undefined) byRoot.set(root, [...(byRoot.get(root) ?? []), leaf]);
      else if (leaf.fact.startsWith('option.')) {
        this.meanings.set(leaf.at, { kind: 'settled', truth: scene.nothing.truths[leaf.at] as Truth });
      } else this.addLoose(leaf);
    }
    const nodeOf = factNodes(nodes);
    for (const [root, leaves] of byRoot) this.addFact(scene, root, leaves, nodeOf);
    for (const [at, truth] of scene.plan.constants) {
      this.meanings.set(at, { kind: 'settled', truth: truth as Truth });
    }
  }

  get layout(): Layout {
    return this.owners;
  }

  regionOfLeaf(at: number, wanted: Wanted): Region {
    const key = `${at} ${wanted}`;
    const known = this.regions.get(key);
    if (known) return known;
    const region = this.findRegion(this.meanings.get(at)!, wanted);
    this.regions.set(key, region);
    return region;
  }

  /** The truth that a comparison has for every value its fact can have, nothing recorded aside; else nothing. */
  settledTruth(at: number): Truth | undefined {
    const meaning = this.meanings.get(at);
    if (meaning?.kind !== 'atoms') return undefined;
    const known = new Set(meaning.truths.filter((truth) => truth !== UNKNOWN));
    return known.size === 1 ? [...known][0] : undefined;
  }

  /** The same, with what local choices settle by themselves left open. */
  withAnyChoice({ constants }: Scene['plan']): Cuts {
    const places = new Set(constants.map(([at]) => at));
    return {
      layout: this.owners,
      regionOfLeaf: (at, wanted) => (places.has(at) ? EVERYBODY : this.regionOfLeaf(at, wanted)),
    };
  }

  /** Whether a region limits facts whose values hang together with those of others. */
  looseIn(region: Region): boolean {
    return this.owners.looseIn(region);
  }

  private addFact(
    scene: Scene,
    root: string,
    leaves: readonly Leaf[],
    nodeOf: ReadonlyMap<number, Node>,
  ): void {
    const fact = scene.fact(root);
    const own = leaves.every((leaf) => leaf.fact === root);
    const supplied = own && fact.from === undefined;
    if (supplied && fact.type === 'codes') {
      this.addCodes(root, leaves);
      return;
    }
    const loose = fact.from !== undefined || fact.notBefore !== undefined;
    const quick = supplied ? atomsOf(fact, leaves, scene.codesOf(fact)) : undefined;
    const atoms = quick ?? searchedAtoms(scene, leaves, nodeOf);
    if (atoms) this.addAtoms(root, leaves, atoms, loose);
    else for (const leaf of leaves) this.addLoose(leaf);
  }

  private addAtoms(fact: string, leaves: readonly Leaf[], atoms: readonly Atom[], loose: boolean): void {
    const owner = this.owners.add(fact, atoms.length, loose);
    leaves.forEach(({ at }, index) => {
      this.meanings.set(at, { kind: 'atoms', owner, truths: atoms.map((atom) => atom[index]!) });
    });
  }

  /** The answers to the codes of one fact are independent of each other: each code is cut by itself. */
  private addCodes(fact: string, leaves: readonly Leaf[]): void {
    const answers = new Map<string, number>();
    const answer = (code: string): number => {
      const owner = answers.get(code) ?? this.owners.add(fact, 2, false);
      answers.set(code, owner);
      return owner;
    };
    for (const leaf of leaves) {
      const { test, at } = leaf;
      if (test.kind !== 'contains') this.addLoose(leaf);
      else this.meanings.set(at, { kind: 'answers', owners: test.codes.map(answer), negated: test.negated });
    }
  }

  /** Nothing is known of its values but that it is true or false. */
  private addLoose(leaf: Leaf): void {
    this.addAtoms(leaf.fact, [leaf], [[TRUE], [FALSE]], true);
  }

  private findRegion(meaning: Meaning, wanted: Wanted): Region {
    switch (meaning.kind) {
      case 'settled':
        return isWanted(meaning.truth, wanted) ? EVERYBODY : NOBODY;
      case 'atoms':
        return this.owners.boxOf(
          meaning.owner,
          meaning.truths.map((truth) => isWanted(truth, wanted)),
        );
      case 'answers': {
        const some = isWanted(TRUE, wanted) !== meaning.negated;
        const boxes = meaning.owners.flatMap((owner) => this.owners.boxOf(owner, [some, !some]));
        if (some) return boxes;
        const [first] = boxes;
        const all = [...boxes].sort((a, b) => a.words[0]! - b.words[0]!);
        return first === undefined
          ? EVERYBODY
          : [{ words: all.flatMap(({ words }) => words), masks: all.flatMap(({ masks }) => masks) }];
      }
    }
  }
}

/** Atoms of a fact that others follow from, by what the core makes of its values; nothing where some may be missing. */
function searchedAtoms(
  scene: Scene,
  leaves: readonly Leaf[],
  nodeOf: ReadonlyMap<number, Node>,
): readonly Atom[] | undefined {
  const { variables } = variablesOf(
    scene,
    leaves.flatMap(({ at }) => nodeOf.get(at) ?? []),
  );
  const [variable] = variables;
  if (variable?.complete !== true || variable.values.length === 0) return undefined;
  const order = leaves.map(({ at }) => variable.places.indexOf(at));
  return variable.values.map(({ truths }): Atom => order.map((place) => truths[place]!));
}

function factNodes(nodes: readonly Node[]): Map<number, Node> {
  const found = new Map<number, Node>();
  const visit = (node: Node): void => {
    if ('of' in node) node.of.forEach(visit);
    else if (node.kind === 'fact') found.set(node.at, node);
  };
  nodes.forEach(visit);
  return found;
}
