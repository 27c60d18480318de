import type { Case } from '@dwellset/core';
import { casesOf } from './cases.ts';
import type { Facts, Scene } from './scene.ts';
import type { Box } from './search.ts';
import { smallest } from './smallest.ts';

/** Patients of a box of whom `shows` is true as the core reads them, each with the fewest facts that keep it so. */
export function* patientsOf(scene: Scene, box: Box, shows: (facts: Facts) => boolean): Generator<Case> {
  for (const facts of casesOf(scene, box)) {
    if (shows(facts)) yield scene.caseOf(smallest(facts, shows));
  }
}
