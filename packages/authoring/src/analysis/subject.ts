import {
  type Evaluation,
  evaluate,
  type Node,
  type Plan,
  type PlanRule,
  type PlanSet,
  type Release,
} from '@dwellset/core';
import { type Moment, type Scene, type Scenes, scenesOf } from '../boxes/scene.ts';
import { nodesOfRule } from '../coverage/decisions.ts';
import { type Anchor, anchorOfRule } from '../coverage/places.ts';
import type { Library, LibrarySet } from '../library/shape.ts';
import { vignettesOf } from '../vignettes/runVignettes.ts';
import { Alphabet } from './alphabet.ts';
import { ofAll, regionOf } from './expand.ts';
import { NOBODY, type Region } from './region.ts';
import { Relations } from './relations.ts';
import type { Wanted } from './wanted.ts';

/** The conditions that a choice rule reads of an item. */
export const itemNodeOf = ({ excludes, remarks, prefers }: PlanRule): Node | undefined =>
  excludes ?? remarks ?? (prefers && 'options' in prefers ? prefers.options : undefined);

interface Given {
  readonly library: Library;
  readonly documents: LibrarySet;
  readonly plan: Plan;
  readonly set: PlanSet;
  /** When and where invented patients are looked at. */
  readonly moment: Moment;
  readonly hospital: string | undefined;
}

/** One rule set under analysis: its plan, and its rules written out in boxes as they are asked for. */
export class Subject implements Given {
  readonly library: Library;
  readonly documents: LibrarySet;
  readonly plan: Plan;
  readonly set: PlanSet;
  readonly moment: Moment;
  readonly hospital: string | undefined;
  /** Rules that a local choice has switched off are left out. */
  readonly rules: readonly PlanRule[];
  private readonly scenes: Scenes;
  private readonly alphabets = new Map<string, Alphabet>();
  private seen: readonly Evaluation[] | undefined;
  private relations: Relations | undefined;
  private readonly applying = new Map<PlanRule, Region | undefined>();

  constructor({ library, documents, plan, set, moment, hospital }: Given) {
    this.library = library;
    this.documents = documents;
    this.plan = plan;
    this.set = set;
    this.moment = moment;
    this.hospital = hospital;
    this.rules = set.rules.filter(({ switchedOff }) => !switchedOff);
    this.scenes = scenesOf(plan, moment);
  }

  get release(): Release {
    return this.set.release;
  }

  /** For the patient, for an item in the hand, or for one option of a stock list. */
  scene(kind?: string, option?: string): Scene {
    return this.scenes({
      set: this.release.id,
      ...(kind === undefined ? {} : { kind }),
      ...(option === undefined ? {} : { option }),
    });
  }

  anchor(rule: string): Anchor {
    return anchorOfRule(this.library, this.documents, rule, this.hospital);
  }

  /** What the core makes of the vignettes of the set. */
  get vignettes(): readonly Evaluation[] {
    this.seen ??= vignettesOf(this.documents).map((one) => evaluate(this.plan, one.case));
    return this.seen;
  }

  /** What all conditions of the set can tell apart; of a stock list, whatever item is in the hand. */
  alphabet(kind?: string): Alphabet {
    const known = this.alphabets.get(kind ?? '');
    if (known) return known;
    const rules = this.rules.filter(({ rule }) => kind === undefined || rule.of === kind);
    const nodes = rules.flatMap((rule) => {
      const item = kind === undefined ? undefined : itemNodeOf(rule);
      return [...nodesOfRule(this.set, rule), ...(item ? [item] : [])];
    });
    const limits = [this.set.population, this.set.gate].flatMap((node) => node ?? []);
    const made = new Alphabet(this.scene(kind), [...limits, ...nodes]);
    this.alphabets.set(kind ?? '', made);
    return made;
  }

  region(node: Node | undefined, wanted: Wanted, kind?: string): Region | undefined {
    return regionOf(this.alphabet(kind), node, wanted);
  }

  /** Whom a rule is about: its scope within the limits of the set. */
  inScope(rule: PlanRule, kind?: string): Region | undefined {
    const { population, gate } = this.set;
    const { anyPopulation, locked } = rule.rule;
    const limits = anyPopulation ? [] : [this.region(population, locked ? 'not-false' : 'true', kind)];
    return this.all(
      [...limits, this.region(gate, 'true', kind), this.region(rule.scope, 'true', kind)],
      kind,
    );
  }

  /** Whether a rule may speak to patients whose facts leave the population open. */
  speaksToUnestablished({ rule }: PlanRule): boolean {
    return rule.locked === true && rule.anyPopulation !== true && this.set.population !== undefined;
  }

  /** What a rule looks for, wherever it is in scope. */
  looksFor(rule: PlanRule, found: boolean, kind?: string): Region | undefined {
    const { when, expect } = rule;
    const wanted = (expect === undefined) === found ? 'true' : 'false';
    return this.region(expect ?? when, wanted, kind);
  }

  /** Whether nobody is spoken to, but somebody might be if local choices, apart from numbers and lists, were other ones. */
  isSilencedByChoice(rule: PlanRule): boolean {
    if (this.applies(rule)?.length !== 0) return false;
    const cuts = this.alphabet().withAnyChoice(this.plan);
    const { scope, when, expect } = rule;
    const looked = expect === undefined ? regionOf(cuts, when, 'true') : regionOf(cuts, expect, 'false');
    const regions = [this.set.population, this.set.gate, scope].map((node) => regionOf(cuts, node, 'true'));
    const all = [...regions, looked];
    return all.every((region) => region !== undefined) && ofAll(cuts, all)?.length !== 0;
  }

  /** To whom a rule applies; nothing where that takes too many boxes. */
  applies(rule: PlanRule): Region | undefined {
    if (!this.applying.has(rule)) {
      this.applying.set(rule, this.all([this.inScope(rule), this.looksFor(rule, true)]));
    }
    return this.applying.get(rule);
  }

  /** Whether some combination of atoms makes both apply; nothing where that takes too many boxes. */
  meet(a: PlanRule, b: PlanRule): boolean | undefined {
    return this.among.meet(this.rules.indexOf(a), this.rules.indexOf(b));
  }

  /** Whether some of these apply wherever a rule does; nothing where that takes too many boxes or steps. */
  isWithin(rule: PlanRule, by: readonly PlanRule[]): boolean | undefined {
    return this.among.within(
      this.rules.indexOf(rule),
      by.map((other) => this.rules.indexOf(other)),
    );
  }

  /** To whom the rules apply, by the number of the rule. */
  private get among(): Relations {
    this.relations ??= new Relations(
      this.alphabet().layout,
      this.rules.map((rule) => this.applies(rule)),
    );
    return this.relations;
  }

  /** Patients with an item in the hand whom a choice rule speaks to and whose item it concerns. */
  concerns(rule: PlanRule): Region | undefined {
    const kind = rule.rule.of!;
    return this.all(
      [
        this.inScope(rule, kind),
        this.looksFor(rule, true, kind),
        this.region(itemNodeOf(rule), 'true', kind),
      ],
      kind,
    );
  }

  all(regions: readonly (Region | undefined)[], kind?: string): Region | undefined {
    // An empty part settles it, however many boxes the others take.
    if (regions.some((region) => region?.length === 0)) return NOBODY;
    const known = regions.flatMap((region) => (region === undefined ? [] : [region]));
    return known.length < regions.length ? undefined : ofAll(this.alphabet(kind), known);
  }
}
