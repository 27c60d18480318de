import type { Seed } from '../compare/shape.ts';
import type { WardDocument } from '../documents/ward.ts';
import { placed } from '../library/placed.ts';
import type { Library } from '../library/shape.ts';
import { simulateWard } from './simulate.ts';

/** The invented wards of a library, by id. */
export const wardsOf = (library: Library): ReadonlyMap<string, WardDocument> =>
  new Map(
    library.documents.flatMap((document) => {
      const ward = placed(document, 'ward');
      return ward ? [[ward.value.id, ward.value] as const] : [];
    }),
  );

/** The days of every ward of a library as cases to compare releases on. */
export function wardSeeds(library: Library, seed: number): Seed[] {
  return [...wardsOf(library)].flatMap(([id, ward]) =>
    simulateWard(ward, seed).map(
      ({ patient, day, case: chart }): Seed => ({
        from: 'ward',
        name: `${id}, patient ${patient}, day ${day}`,
        case: chart,
      }),
    ),
  );
}
