/// <reference types="node" />
import { analyseSet } from '@dwellset/authoring/analysis';
import { compile, type Plan } from '@dwellset/core';
import { Relations } from '../../packages/authoring/src/analysis/relations.ts';
import { Subject } from '../../packages/authoring/src/analysis/subject.ts';
import { library } from '../policies/shipped.ts';
import { generate } from './generate.ts';
import { interleaved, type Sample } from './measure.ts';

/** What the boxes of a rule set say of its rules, each with each. */
export interface Counted {
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
function relations(plan: Plan): Counted {
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
  const known = new Relations(layout, regions);
  for (let a = 0; a < regions.length; a += 1) {
    for (let b = a + 1; b < regions.length; b += 1) {
      const both = known.meet(a, b);
      if (both === undefined) unsettled += 1;
      else if (both) meeting += 1;
      for (const covered of [known.within(a, [b]), known.within(b, [a])]) {
        if (covered === undefined) unsettled += 1;
        else if (covered) implied += 1;
      }
    }
  }
  return { rules: subject.rules.length, never, meeting, implied, unsettled };
}

/** The same for invented rules, with the milliseconds that it takes. */
export async function relationsOf(
  rules: number,
  seed: number,
  rounds: number,
): Promise<Counted & { readonly time: Sample }> {
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
