import { buildRelease, GATES, type Gate, mutate, runGates } from '@dwellset/authoring';
import { cautions, mutationText } from '@dwellset/wording';
import { describe, expect, test } from 'vitest';
import { secondEngine } from '../../packages/cli/src/gates/secondEngine.ts';
import { library } from './shipped.ts';

/** Planting every mistake in the two largest sets takes most of a minute each, on a busy machine several times that. */
const MINUTES = 600_000;

const ALL: readonly Gate[] = [...GATES, secondEngine()];
const SETS = [...library.sets.keys()];

test('the shipped rules are five sets in more than a hundred documents', () => {
  expect(SETS.sort()).toEqual([
    'catheter-choice',
    'indication',
    'insertion-bundle',
    'maintenance-bundle',
    'removal',
  ]);
  expect(library.documents.length).toBeGreaterThan(100);
});

// What `dwellset release` would refuse: nothing that is shipped needs a reason to be let through.
describe.each(SETS)('%s could be released as it stands', (set) => {
  test.each(ALL.map((gate) => [gate.id, gate] as const))(
    'and passes %s',
    async (_id, gate) => {
      const { release } = buildRelease(library, set);
      const [result] = await runGates([gate], { library, release: release! }, new Map());
      expect(result).toMatchObject({ outcome: 'passed', findings: [] });
    },
    MINUTES,
  );
});

const isLimit = ({ kind, before }: { readonly kind: string; readonly before: unknown }): boolean =>
  kind === 'limit' || (kind === 'default' && typeof before === 'number');

describe.each(SETS)('any limit of %s that is moved by one step', (set) => {
  test(
    'is noticed and explained by a patient, or proven to change nothing',
    () => {
      const [tried] = mutate(library, { set }).sets;
      const noticed = tried!.noticed.filter(isLimit);
      expect(tried!.survivors.filter(isLimit).filter(({ verdict }) => verdict === 'unnoticed')).toEqual([]);
      expect(noticed.length).toBeGreaterThan(0);
      const { release } = buildRelease(library, set);
      const one = { ...tried!, survivors: [], noticed };
      const text = mutationText(
        { sets: [one] },
        { releases: [release!], least: 95, noticed: true, width: 5000 },
      );
      for (const { by, telling, place } of noticed) {
        expect(telling.differences.length).toBeGreaterThan(0);
        expect(text).toContain(`${place.path}:${place.range.line}:${place.range.column}`);
        expect(text).toContain(`Noticed by the vignette ${by.rule}/${by.vignette}: `);
      }
      expect(text.match(/; with the mistake: /g)!.length).toBeGreaterThanOrEqual(noticed.length);
      for (const caution of cautions) expect(text).toContain(caution);
    },
    MINUTES,
  );
});
