import { assess, type Plan } from '@dwellset/core';
import { mistake } from '../amend/refusals.ts';
import { type Diagnostic, inDocumentOrder } from '../diagnostic.ts';
import type { Library, LibrarySet, Placed } from '../library/shape.ts';
import { mismatches } from '../vignettes/expectations.ts';
import { isPlan, planOf, type ReadyVignette, vignettesOf } from '../vignettes/runVignettes.ts';
import { shownOf } from './shownOf.ts';
import { planWithout } from './withoutRule.ts';

/**
 * Proves of each control in the hazard log that it is one: the vignette comes out as expected, and with the rule it
 * stands beside switched off it fails, and whoever reads the assessment sees something else. What proves nothing is
 * an error at the place of the control. It builds and runs rules, so it is slower than the check and stands apart
 * from it; controls that name no vignette are for the check to report. With `set` only its controls are tried.
 */
export function hazardProof(library: Library, { set }: { readonly set?: string } = {}): Diagnostic[] {
  const proofs = new Proofs(library);
  const found = [...library.hazards.values()].flatMap((hazard) =>
    hazard.value.controls.flatMap((control, index) => {
      if (set !== undefined && !control.startsWith(`${set}/`)) return [];
      const why = proofs.failureOf(control);
      return why === undefined ? [] : [report(hazard, control, index, why)];
    }),
  );
  return inDocumentOrder(found);
}

type Failure = { readonly code: string; readonly message: string };

const report = (
  { document, pointer, value }: Placed<{ readonly id: string }>,
  control: string,
  index: number,
  { code, message }: Failure,
): Diagnostic =>
  mistake(
    document,
    `${pointer}/controls/${index}`,
    code,
    `the control \`${control}\` of hazard \`${value.id}\` ${message}`,
    { received: control },
  );

/** One plan a set, and one for each rule that was switched off. */
class Proofs {
  readonly #library: Library;
  readonly #plans = new Map<string, Plan | undefined>();

  constructor(library: Library) {
    this.#library = library;
  }

  failureOf(control: string): Failure | undefined {
    const [id = '', name = ''] = control.split('/');
    const set = this.#library.sets.get(id);
    const ready = set && vignettesOf(set).find(({ vignette }) => vignette.id === name);
    if (set === undefined || ready === undefined) return undefined;
    const asWritten = this.#plan(id, () => {
      const plan = planOf(this.#library, id, {});
      return isPlan(plan) ? plan : undefined;
    });
    if (asWritten === undefined)
      return { code: 'control-not-run', message: 'cannot be run, its set does not build' };
    const [before, missed] = outcomeOf(asWritten, set, ready);
    if (missed.length > 0) {
      return { code: 'control-fails', message: 'does not come out as it must, so it controls nothing' };
    }
    const { rule } = ready;
    const off = this.#plan(`${id}/${rule}`, () => planWithout(this.#library, set, rule));
    if (off === undefined) {
      return { code: 'control-not-run', message: `cannot be run without the rule \`${rule}\`` };
    }
    const [after, changed] = outcomeOf(off, set, ready);
    if (after !== before && changed.length > 0) return undefined;
    return {
      code: 'control-proves-nothing',
      message: `proves nothing: without the rule \`${rule}\` a reader would see the same`,
    };
  }

  #plan(key: string, make: () => Plan | undefined): Plan | undefined {
    if (!this.#plans.has(key)) this.#plans.set(key, make());
    return this.#plans.get(key);
  }
}

function outcomeOf(plan: Plan, { ruleSet }: LibrarySet, { vignette, case: patient }: ReadyVignette) {
  const { id } = ruleSet.value;
  const assessment = assess(plan, patient, { reasons: 'deciding' });
  return [shownOf(assessment, id), mismatches(vignette.expect, assessment, id)] as const;
}
