/// <reference types="node" />
import { analyseSet } from '@dwellset/authoring/analysis';
import { compile, type Plan } from '@dwellset/core';
import { STEPS } from '../../packages/authoring/src/analysis/draft.ts';
import { overlap, within } from '../../packages/authoring/src/analysis/region.ts';
import { Subject } from '../../packages/authoring/src/analysis/subject.ts';
import { library } from '../policies/shipped.ts';
import { generate } from './generate.ts';
import { interleaved, type Sample } from './measure.ts';

/** What the boxes of a rule set say of its rules, each with each. */
export interface Relations {
  readonly rules: number;
  /** Rules that can never apply, pairs that can both apply, and how often one is implied by another. */
  readonly never: number;
  readonly meeting: number;
  readonly implied: number;
  /** Rules that take too many boxes, and what was given up for that or for the number of steps. */
  readonly unsettled: number;
}

const MOMENT = { asOf: '2026-11-25T09:00:00Z', timeZone: 'Europe/London' };

/** Cuts facts into atoms, writes the rules out in boxes, and looks at every rule and every pair. */
function relations(plan: Plan): Relations {
  const [set] = plan.sets;
  // Neither documents nor vignettes are looked at: nobody is shown to whom it happens.
  const documents = library.sets.values().next().value!;
  const subject = new Subject({ library, documents, plan, set: set!, moment: MOMENT, hospital: undefined });
  const { layout } = subject.alphabet();
  let [never, meeting, implied, unsettled] = [0, 0, 0, 0];
  const regions = subject.rules.map((rule) => subject.applies(rule));
  for (const region of regions) {
    if (region === undefined) unsettled += 1;
    else if (region.length === 0) never += 1;
  }
  regions.forEach((a, at) => {
    for (const b of regions.slice(at + 1)) {
      if (a === undefined || b === undefined) {
        unsettled += 3;
        continue;
      }
      if (overlap(layout, a, b)) meeting += 1;
      for (const covered of [
        within(layout, a, b, { steps: STEPS }),
        within(layout, b, a, { steps: STEPS }),
      ]) {
        if (covered === undefined) unsettled += 1;
        else if (covered) implied += 1;
      }
    }
  });
  return { rules: subject.rules.length, never, meeting, implied, unsettled };
}

/** The same for invented rules, with the milliseconds that it takes. */
export async function relationsOf(
  rules: number,
  seed: number,
  rounds: number,
): Promise<Relations & { readonly time: Sample }> {
  const { release } = generate({ rules, cases: 0, seed, missing: 0 });
  const plan = compile([release], { allow: ['draft'] });
  const found = await interleaved([{ name: 'relations', cases: 1000, run: () => relations(plan) }], rounds);
  return { ...relations(plan), time: found.get('relations')! };
}

/** All that `analyseSet` does over one shipped set, patients made up and assessed by the core included. */
export async function wholeAnalysis(
  set: string,
  rounds: number,
): Promise<{ readonly rules: number; readonly findings: number; readonly time: Sample }> {
  const found = await interleaved([{ name: set, cases: 1000, run: () => analyseSet(library, set) }], rounds);
  const { rules, findings } = analyseSet(library, set);
  return { rules, findings: findings.length, time: found.get(set)! };
}
