import type { Seed } from '../compare/shape.ts';
import type { Library } from '../library/shape.ts';
import { vignettesOf } from './runVignettes.ts';

/** The vignettes of one set as cases to compare releases on. */
export function vignetteSeeds(library: Library, setId: string): Seed[] {
  const set = library.sets.get(setId);
  if (set === undefined) return [];
  return vignettesOf(set).map(({ rule, vignette, case: patient }) => ({
    from: 'vignette',
    name: `${setId}/${rule}/${vignette.id}`,
    case: patient,
  }));
}
