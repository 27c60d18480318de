import { buildRelease, GATES, type Gate, runGates } from '@dwellset/authoring';
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
