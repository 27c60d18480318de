import type { Moment } from '../boxes/scene.ts';
import type { ReadyVignette } from './runVignettes.ts';

/** The moment of the set's own vignettes, so that a patient found can stand beside them. */
export function momentOf([first]: readonly ReadyVignette[]): Moment {
  const { asOf, timeZone } = first?.case ?? { asOf: '2030-03-01T12:00:00Z', timeZone: 'Europe/London' };
  return { asOf, timeZone };
}
