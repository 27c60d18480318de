import { vignetteSeeds } from '@dwellset/authoring';
import type { Case } from '@dwellset/core';
import { library, planOf } from '../policies/shipped.ts';
import { random } from '../reference/generate/random.ts';
import type { Arguments } from './arguments.ts';
import { type Subject, subjectOf } from './subject.ts';

/** All shipped rule sets at once, on the cases of their vignettes with some of the facts taken out. */
export function shipped(seed: number, { missing }: Pick<Arguments, 'missing'>): Subject {
  const sets = [...library.sets.keys()];
  const plan = planOf(sets);
  const draw = random(seed);
  const cases = sets
    .flatMap((set) => vignetteSeeds(library, set).map((one) => one.case))
    .map((patient): Case => {
      const left = Object.entries(patient.facts).filter(() => !draw.chance(missing));
      return { ...patient, facts: Object.fromEntries(left) };
    });
  return subjectOf(
    'shipped rules',
    plan,
    plan.sets.map(({ release }) => release),
    cases,
  );
}
