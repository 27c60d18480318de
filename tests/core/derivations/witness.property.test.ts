/// <reference types="node" />
import {
  type Case,
  compile,
  DERIVATION_KINDS,
  type ExactValue,
  evaluate,
  exactValue,
  type Fact,
  type Plan,
  type WitnessValue,
  witnessOf,
} from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { MOMENTS } from '../../reference/generate/moments.ts';
import { type Random, random } from '../../reference/generate/random.ts';
import { makeRelease } from '../../reference/release.ts';
import { codesIn } from './support/columns.ts';
import { inputsOf, inTermsOf, stated } from './support/inputs.ts';
import { APART, gridOf, PUZZLES, type Puzzle } from './support/puzzles.ts';
import { WARD_PARTS } from './support/ward.ts';

const SEED = Number(process.env.SEED ?? 20_261_125);
const DRAWS_PER_KIND = 200;
const MOST_TRIED = 3000;

interface Scene extends Puzzle {
  readonly plan: Plan;
  readonly asOf: number;
  readonly zone: string;
}

const listOf = (of: Fact): readonly string[] => codesIn(WARD_PARTS.codes, of.codes ?? '');

/** What the derived fact exactly is in a case that states these values; nothing where it is not exact. */
function readWith(
  { of, operands, plan, asOf, zone }: Scene,
  values: ReadonlyMap<string, WitnessValue>,
): ExactValue | undefined {
  const facts = operands.flatMap((operand): [string, unknown][] => {
    const value = values.get(operand.id);
    return value === undefined ? [] : [[operand.id, stated(operand, value, listOf(operand))]];
  });
  const patient = {
    asOf: new Date(asOf).toISOString(),
    timeZone: zone,
    facts: Object.fromEntries(facts) as Case['facts'],
  };
  const reading = evaluate(plan, patient).readings.get(of.id);
  const value = reading?.cause === undefined && reading ? exactValue(reading.bounds) : undefined;
  return value === undefined ? undefined : inTermsOf(of, value);
}

const sorted = (value: ExactValue | undefined): unknown => (Array.isArray(value) ? [...value].sort() : value);
const same = (a: ExactValue | undefined, b: ExactValue): boolean =>
  JSON.stringify(sorted(a)) === JSON.stringify(sorted(b));

/** The first values of a grid that give the target, `null` among them where the record may be known to be empty. */
function bruteForce(scene: Scene, target: ExactValue): ReadonlyMap<string, WitnessValue> | undefined {
  const emptied = scene.of.from && 'firstRecorded' in scene.of.from;
  const grids = scene.operands.map((operand) => [
    ...gridOf(operand, listOf(operand), scene.asOf),
    ...(emptied ? [null] : []),
  ]);
  const size = grids.reduce((sofar, grid) => sofar * grid.length, 1);
  // A grid too large to try whole is tried at even distances.
  const stride = Math.max(1, Math.ceil(size / MOST_TRIED));
  for (let index = 0; index < size; index += stride) {
    let rest = index;
    const values = new Map<string, WitnessValue>();
    scene.operands.forEach((operand, at) => {
      const grid = grids[at] ?? [];
      values.set(operand.id, grid[rest % grid.length] as WitnessValue);
      rest = Math.floor(rest / grid.length);
    });
    if (same(readWith(scene, values), target)) return values;
  }
  return undefined;
}

/** A value that some operands of the grid give, or one that perhaps none do. */
function drawTarget(draw: Random, scene: Scene): { target: ExactValue; reached: boolean } | undefined {
  if (draw.chance(0.55)) {
    const emptied = scene.of.from !== undefined && 'firstRecorded' in scene.of.from;
    const grids = scene.operands.map((operand) => gridOf(operand, listOf(operand), scene.asOf));
    // Limits between two steps leave an operand no value at all.
    if (grids.some((grid) => grid.length === 0)) return undefined;
    const values = new Map(
      scene.operands.map(({ id }, at) => [
        id,
        emptied && draw.chance(0.4) ? null : draw.pick(grids[at] ?? []),
      ]),
    );
    const value = readWith(scene, values);
    return value === undefined ? undefined : { target: value, reached: true };
  }
  const { type, step = 0.25 } = scene.of;
  const target =
    type === 'number'
      ? Number((draw.integer(-20, 60) * step).toFixed(4))
      : draw.pick(gridOf(scene.of, listOf(scene.of), scene.asOf + 3_600_000));
  return target === null ? undefined : { target, reached: false };
}

describe('a witness', () => {
  it.each(Object.entries(PUZZLES))(
    'of %s makes the fact exactly the target, and none is missed that a grid finds',
    (kind, make) => {
      const tally = { found: 0, none: 0, tried: 0 };
      for (let index = 0; tally.found + tally.none < DRAWS_PER_KIND; index++) {
        expect(index, 'puzzles without a target').toBeLessThan(20 * DRAWS_PER_KIND);
        const draw = random(SEED + 1000 * index);
        const [zone, at] = draw.pick(MOMENTS);
        const puzzle = make(draw);
        const release = makeRelease({ ...WARD_PARTS, facts: [...puzzle.operands, puzzle.of], rules: [] });
        const scene: Scene = {
          ...puzzle,
          plan: compile([release], { allow: ['draft'] }),
          asOf: Date.parse(at),
          zone,
        };
        const drawn = drawTarget(draw, scene);
        if (drawn === undefined) continue;
        const { target, reached } = drawn;
        const where = `seed ${SEED} draw ${index}: ${JSON.stringify(target)} of ${JSON.stringify([puzzle.of, ...puzzle.operands])}`;
        const witness = witnessOf(puzzle.of, target, inputsOf(release.facts, WARD_PARTS, scene.asOf, zone));
        if (witness === undefined) {
          expect(reached, where).toBe(false);
          expect(bruteForce(scene, target), where).toBeUndefined();
          tally.none++;
        } else {
          expect(sorted(readWith(scene, witness)), `${where} with ${JSON.stringify([...witness])}`).toEqual(
            sorted(target),
          );
          tally.found++;
        }
      }
      console.info(`seed ${SEED}: ${kind} ${tally.found} witnesses, ${tally.none} times none`);
      expect(tally.found).toBeGreaterThan(DRAWS_PER_KIND / 4);
      expect(tally.none).toBeGreaterThan(0);
    },
  );

  it('is tried for every kind that reads facts', () => {
    expect([...Object.keys(PUZZLES), ...APART].sort()).toEqual([...DERIVATION_KINDS].sort());
  });
});
