import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Owners } from '../../../packages/authoring/src/analysis/owners.ts';
import {
  type Box,
  meet,
  overlap,
  type Region,
  within,
} from '../../../packages/authoring/src/analysis/region.ts';
import { Relations } from '../../../packages/authoring/src/analysis/relations.ts';

/** Facts with so many atoms: one of two words of bits is among them. */
const ATOMS = [2, 3, 2, 40, 5];

const owners = new Owners();
for (const [index, atoms] of ATOMS.entries()) owners.add(`fact.f${index}`, atoms, false);

const EVERYTHING: Box = { words: [], masks: [] };

/** A few facts limited to some of their atoms. */
const box: fc.Arbitrary<Box> = fc
  .dictionary(
    fc.constantFrom(...ATOMS.keys()).map(String),
    fc.array(fc.boolean(), { minLength: 40, maxLength: 40 }),
    { maxKeys: 3 },
  )
  .map((held) =>
    Object.entries(held).reduce<Box>((sofar, [owner, bits]) => {
      const [limited] = owners.boxOf(Number(owner), bits.slice(0, ATOMS[Number(owner)]));
      return limited === undefined ? sofar : meet(owners, sofar, limited)!;
    }, EVERYTHING),
  );

const region: fc.Arbitrary<Region | undefined> = fc.option(fc.array(box, { maxLength: 3 }), {
  freq: 9,
  nil: undefined,
});

describe('whatever rules are held against each other', () => {
  it('patients made up at random say nothing of them that boxes would not prove', () => {
    fc.assert(
      fc.property(fc.array(region, { minLength: 2, maxLength: 40 }), (regions) => {
        const relations = new Relations(owners, regions);
        regions.forEach((a, at) => {
          for (const [index, b] of regions.entries()) {
            const known = a !== undefined && b !== undefined;
            expect(relations.meet(at, index)).toBe(known ? overlap(owners, a, b) : undefined);
            expect(relations.within(at, [index])).toBe(
              known ? within(owners, a, b, { steps: 1e9 }) : undefined,
            );
          }
          const both = regions.slice(0, 2);
          const known = a !== undefined && !both.includes(undefined);
          expect(relations.within(at, [0, 1])).toBe(
            known
              ? within(
                  owners,
                  a,
                  both.flatMap((one) => one ?? []),
                  { steps: 1e9 },
                )
              : undefined,
          );
        });
      }),
      { numRuns: 100 },
    );
  });
});
