import type { Evaluation } from '../evaluate/evaluate.ts';
import type { OptionEvaluation } from '../evaluate/options.ts';
import type { FactSlot } from '../facts/factTable.ts';
import { FALSE, TRUE } from '../facts/truth.ts';

type Read = Pick<OptionEvaluation, 'readings'>;

/** What a fact rests on that is not yet here. */
interface Behind {
  /** Base facts, and derived ones that somebody states outright, still to be fetched. */
  readonly facts: ReadonlySet<string>;
  /** It follows from a conclusion that another set has yet to reach. */
  readonly waits: boolean;
}

/** How each fact of one case stands towards what is still to be fetched. */
export class Standing {
  private readonly evaluation: Evaluation;
  private readonly toFetch: ReadonlySet<string>;
  private readonly resolved: ReadonlySet<string>;
  private readonly slots: ReadonlyMap<string, FactSlot>;
  private readonly partners = new Map<string, string[]>();

  constructor(evaluation: Evaluation, toFetch: ReadonlySet<string>, resolved: ReadonlySet<string>) {
    const { patientFacts, optionFacts } = evaluation.plan;
    this.evaluation = evaluation;
    this.toFetch = toFetch;
    this.resolved = resolved;
    this.slots = new Map([...patientFacts.slots, ...optionFacts.slots].map((slot) => [slot.fact.id, slot]));
    for (const [{ fact: later }, { fact: earlier }] of [...patientFacts.ordered, ...optionFacts.ordered]) {
      this.partners.set(later.id, [...(this.partners.get(later.id) ?? []), earlier.id]);
      this.partners.set(earlier.id, [...(this.partners.get(earlier.id) ?? []), later.id]);
    }
  }

  /** Everything that is still to be fetched and has a part in the fact. */
  behind(id: string, read: Read): Behind {
    const [facts, seen] = [new Set<string>(), new Set<string>()];
    let waits = false;
    const visit = (fact: string): void => {
      if (seen.has(fact)) return;
      seen.add(fact);
      if (this.toFetch.has(fact)) facts.add(fact);
      // An instant that lies on the wrong side of another takes that one's value away.
      for (const partner of this.partners.get(fact) ?? []) if (this.toFetch.has(partner)) facts.add(partner);
      const from = this.slots.get(fact)?.fact.from;
      if (from && 'conclusion' in from) waits ||= !this.resolved.has(from.conclusion);
      for (const input of this.inputs(fact, read)) visit(input);
    };
    visit(id);
    return { facts, waits };
  }

  /**
   * Whether what is known of the fact can only become narrower. It can be taken back where another instant may
   * contradict it, where a stated and a derived value may differ, where what follows may lie outside the limits,
   * and where it is what another set concludes for the time being.
   */
  isFirm(id: string, read: Read): boolean {
    const slot = this.slots.get(id);
    if (slot === undefined) return true;
    const { from } = slot.fact;
    if (from === undefined) {
      return (
        this.toFetch.has(id) || !(this.partners.get(id) ?? []).some((partner) => this.toFetch.has(partner))
      );
    }
    if (this.toFetch.has(id)) return false;
    if ('conclusion' in from && !this.resolved.has(from.conclusion)) return false;
    if (!this.inputs(id, read).every((input) => this.isFirm(input, read))) return false;
    const limited = slot.fact.limits !== undefined || slot.fact.type === 'date-time';
    const isStated = Object.hasOwn(this.evaluation.case.facts ?? {}, id);
    return !(limited || isStated) || this.behind(id, read).facts.size === 0;
  }

  /** Of a list of operands those behind the first that stands in the record have no part. */
  private inputs(id: string, { readings }: Read): readonly string[] {
    const slot = this.slots.get(id);
    const inputs = slot?.derivation?.inputs ?? [];
    if (slot?.fact.from === undefined || !('firstRecorded' in slot.fact.from)) return inputs;
    const first = inputs.findIndex((input) => readings.get(input)?.recorded === TRUE);
    const upTo = first === -1 ? inputs : inputs.slice(0, first + 1);
    return upTo.filter((input) => readings.get(input)?.recorded !== FALSE || this.toFetch.has(input));
  }
}
