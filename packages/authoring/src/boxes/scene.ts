import {
  type Case,
  type CaseValue,
  type Evaluation,
  evaluate,
  type Fact,
  kindOf,
  type Leaf,
  type Node,
  type Plan,
  type WitnessInputs,
} from '@dwellset/core';

/** When and where invented patients are looked at. */
export interface Moment {
  readonly asOf: string;
  readonly timeZone: string;
}

/** Whom conditions are read for: the patient alone, an option of a stock list, or an item in the hand. */
export interface Seat {
  readonly set: string;
  readonly kind?: string;
  /** An option of the stock list; the item in the hand, whatever it is, where there is none. */
  readonly option?: string;
}

/** Truths of one pass, and what was read for them. */
export type Look = Pick<Evaluation, 'truths' | 'readings'>;

export type Facts = Readonly<Record<string, CaseValue>>;

const isOption = (fact: string): boolean => fact.startsWith('option.');

/** A place to try out invented patients in: what facts follow from, and what the core makes of values. */
export class Scene {
  readonly plan: Plan;
  readonly seat: Seat;
  readonly moment: Moment;
  readonly inputs: WitnessInputs;
  private readonly leaves: ReadonlyMap<number, Leaf>;
  private readonly looks = new Map<string, Look>();
  private readonly evaluations: Map<string, Evaluation>;
  private empty: Look | undefined;
  private readonly roots = new Map<string, readonly string[]>();

  /** Scenes of one plan may share what was evaluated for single facts: the options of a stock list differ in the seat. */
  constructor(plan: Plan, seat: Seat, moment: Moment, evaluations = new Map<string, Evaluation>()) {
    this.plan = plan;
    this.evaluations = evaluations;
    this.seat = seat;
    this.moment = moment;
    this.leaves = new Map([...plan.patient.leaves, ...plan.option.leaves].map((leaf) => [leaf.at, leaf]));
    const { parameters, tables, codes } = plan.patientFacts;
    this.inputs = {
      fact: (id) => plan.facts.get(id)!,
      parameter: (id) => parameters.get(id)!,
      table: (id) => tables.get(id)!,
      codes: (list) => codes.get(list) ?? [],
      conclusion: () => ({ possible: [], settled: true, stands: false, waitsFor: [] }),
      asOf: Date.parse(moment.asOf),
      zone: moment.timeZone,
    };
  }

  fact(id: string): Fact {
    return this.plan.facts.get(id)!;
  }

  codesOf({ codes }: Fact): readonly string[] {
    return codes === undefined ? [] : this.inputs.codes(codes);
  }

  /** The distinct comparisons of facts below some nodes. */
  leavesUnder(nodes: readonly Node[]): Leaf[] {
    const found = new Map<number, Leaf>();
    const visit = (node: Node): void => {
      if ('of' in node) node.of.forEach(visit);
      else if (node.kind === 'fact') found.set(node.at, this.leaves.get(node.at)!);
    };
    nodes.forEach(visit);
    return [...found.values()];
  }

  /**
   * What a fact hangs on: a supplied fact on itself, a derived one on the one fact that it follows from. Where it
   * follows from several, from a list or from a conclusion, it is taken as given and hangs on itself. Nothing where
   * the label of the option, or the moment, settles it.
   */
  rootsOf(id: string): readonly string[] {
    const known = this.roots.get(id);
    if (known) return known;
    const found = this.findRoots(id);
    this.roots.set(id, found);
    return found;
  }

  /** Entries of lists and the facts behind a conclusion are not made up: what follows from them is stated itself. */
  isTakenAsGiven({ from }: Fact): boolean {
    if (from === undefined) return false;
    if ('conclusion' in from) return true;
    return kindOf(from)
      .facts(from)
      .some((operand) => this.fact(operand).type === 'list');
  }

  private findRoots(id: string): readonly string[] {
    const { from } = this.fact(id);
    if (from === undefined) return isOption(id) && this.seat.option !== undefined ? [] : [id];
    if (this.isTakenAsGiven(this.fact(id))) return [id];
    const operands = kindOf(from).facts(from);
    const roots = [...new Set(operands.flatMap((operand) => this.rootsOf(operand)))];
    return roots.length > 1 ? [id] : roots;
  }

  /** What one fact gives by itself. Asked for again and again, it is looked up once. */
  lookAt(fact: string, value: CaseValue): Look {
    const key = `${fact} ${JSON.stringify(value)}`;
    const known = this.looks.get(key);
    if (known) return known;
    const look = this.from(this.evaluated(key, { [fact]: value }));
    this.looks.set(key, look);
    return look;
  }

  private evaluated(what: string, facts: Facts): Evaluation {
    const { kind, option } = this.seat;
    const key = kind !== undefined && option === undefined ? `${kind} in the hand: ${what}` : what;
    const known = this.evaluations.get(key);
    if (known) return known;
    const evaluation = evaluate(this.plan, this.caseOf(facts));
    this.evaluations.set(key, evaluation);
    return evaluation;
  }

  /** Nothing is known but what the label or the moment settles. */
  get nothing(): Look {
    this.empty ??= this.from(this.evaluated('', {}));
    return this.empty;
  }

  /** What some facts give, everything else being missing. */
  look(facts: Facts): Look {
    return this.from(evaluate(this.plan, this.caseOf(facts)));
  }

  private from(evaluation: Evaluation): Look {
    const { set, kind, option } = this.seat;
    if (kind === undefined) return evaluation;
    return evaluation.options(set, kind).find(({ id }) => id === (option ?? 'chosen')) ?? evaluation;
  }

  /** A case with these facts; those of an option are the item in the hand. */
  caseOf(facts: Facts): Case {
    const { asOf, timeZone } = this.moment;
    const entries = Object.entries(facts);
    const own = (of: boolean) => Object.fromEntries(entries.filter(([id]) => isOption(id) === of));
    const { kind, option } = this.seat;
    const inHand = kind !== undefined && option === undefined ? { chosen: { [kind]: own(true) } } : {};
    return { asOf, timeZone, recordedAt: asOf, facts: own(false), ...inHand };
  }
}

export type Scenes = (seat: Seat) => Scene;

/** One scene for each seat, which remembers what it has looked at. */
export function scenesOf(plan: Plan, moment: Moment): Scenes {
  const known = new Map<string, Scene>();
  const evaluations = new Map<string, Evaluation>();
  return (seat) => {
    const key = `${seat.set}/${seat.kind ?? ''}/${seat.option ?? ''}`;
    const scene = known.get(key) ?? new Scene(plan, seat, moment, evaluations);
    known.set(key, scene);
    return scene;
  };
}
