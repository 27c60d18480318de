import {
  type Case,
  type Evaluation,
  kindOf,
  type Node,
  TRUE,
  type Truth,
  type TruthOf,
} from '@dwellset/core';
import { patientsOf } from '../boxes/patients.ts';
import type { Facts, Look, Scene } from '../boxes/scene.ts';
import { search } from '../boxes/search.ts';
import { variablesOf } from '../boxes/variables.ts';
import { saidBy } from '../boxes/visible.ts';
import { reader } from '../coverage/truths.ts';
import { withPartlyKnown } from './partly.ts';
import type { Shown } from './shape.ts';
import type { Subject } from './subject.ts';

/** What is looked for in a patient, and everything that it rests on. */
export interface Sought {
  readonly nodes: readonly Node[];
  readonly holds: (truthOf: TruthOf) => Truth;
  /** The stock list, where it is about an item in the hand. */
  readonly kind?: string;
  /** Patients of whom something is not known, or in part, are looked at too; where it is still open then, this has the say. */
  readonly ifMissing?: (truthOf: TruthOf) => boolean;
  /** The last word on a patient found. */
  readonly accept?: (patient: Case) => boolean;
}

/** `none` is proven. `unsure`: the search was given up, or what it found could not be made a patient of. */
export type Found = { readonly patient: Case } | 'none' | 'unsure';

const MOST_BOXES = 8000;

/**
 * Looks for a patient who shows what is looked for, as the core reads him: among all that can be made up, and where
 * that settles nothing (entries of lists are not made up), among the vignettes of the set.
 */
export function seek(subject: Subject, sought: Sought): Found {
  const { nodes, holds, kind, ifMissing, accept = () => true } = sought;
  const scene = subject.scene(kind);
  const behind = variablesOf(scene, nodes, { missing: ifMissing !== undefined });
  const variables = ifMissing
    ? behind.variables.map((variable) => withPartlyKnown(scene, variable))
    : behind.variables;
  const { start, settledByMoment } = behind;
  const showsIn = (truthOf: TruthOf): boolean => holds(truthOf) === TRUE || ifMissing?.(truthOf) === true;
  const shows = (facts: Facts): boolean => showsIn(reader(scene.look(facts).truths));
  let patient: Case | undefined;
  const { exhausted, rejected } = search(
    variables,
    start,
    { nodes, decide: holds, ...(ifMissing && { atEnd: ifMissing }) },
    (box) => {
      for (const found of patientsOf(scene, box, shows)) {
        if (isConsistent(scene, found) && accept(found)) patient = found;
        if (patient) return true;
      }
      return false;
    },
    MOST_BOXES,
  );
  if (patient) return { patient };
  const complete = !settledByMoment && variables.every((variable) => variable.complete);
  if (exhausted && rejected === 0 && complete) return 'none';
  return amongVignettes(subject, sought) ?? 'unsure';
}

/** A vignette that shows what is looked for. */
export function amongVignettes(
  { vignettes, release }: Subject,
  { holds, kind, ifMissing, accept = () => true }: Sought,
): { readonly patient: Case } | undefined {
  const showsIn = (truthOf: TruthOf): boolean => holds(truthOf) === TRUE || ifMissing?.(truthOf) === true;
  const known = vignettes.find(
    (evaluation) =>
      looksOf(evaluation, release.id, kind).some(({ truths }) => showsIn(reader(truths))) &&
      accept(evaluation.case),
  );
  return known && { patient: known.case };
}

/** Of a patient, or of each item that is looked at for him. */
const looksOf = (evaluation: Evaluation, set: string, kind: string | undefined): readonly Look[] =>
  kind === undefined ? [evaluation] : evaluation.options(set, kind);

/**
 * The core holds a derived fact that a case states against the inputs that it states as well. Two that follow from a
 * fact which is not stated are held against nothing: nobody knows whether such a patient can be.
 */
function isConsistent(scene: Scene, { facts: own, chosen }: Case): boolean {
  const items = Object.values(chosen ?? {}).filter((item) => typeof item === 'object');
  const facts: Facts = Object.assign({}, own, ...items);
  const seen = new Set<string>();
  return Object.keys(facts).every((id) => {
    const { from } = scene.fact(id);
    if (from === undefined || 'conclusion' in from) return true;
    const inputs = [...new Set(inputsOf(scene, id))].filter((input) => !(input in facts));
    const fresh = inputs.every((input) => !seen.has(input));
    for (const input of inputs) seen.add(input);
    return fresh;
  });
}

function inputsOf(scene: Scene, id: string): string[] {
  const { from } = scene.fact(id);
  return from === undefined
    ? [id]
    : kindOf(from)
        .facts(from)
        .flatMap((input) => inputsOf(scene, input));
}

/** The patient, and what the core says of him under some heads. */
export function shownBy({ plan, release }: Subject, patient: Case, heads: readonly string[]): Shown {
  const said = saidBy(plan, release.id, patient);
  return {
    case: patient,
    says: heads.flatMap((what) => {
      const is = said.get(what);
      return is === undefined || is === '' ? [] : [{ what, is }];
    }),
  };
}
