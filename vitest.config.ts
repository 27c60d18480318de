import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Files that take a minute or more: begun last, one of them would keep a single core busy at the end. */
const LONG =
  /tests\/(browser\/|policies\/(crosscheck|gates)|properties\/(differential|forecast|many)|docs\/)/;

const BROWSER = 'tests/browser/**/*.test.ts';

class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const isLong = ({ moduleId }: TestSpecification): boolean => LONG.test(moduleId);
    return [...files.filter(isLong), ...files.filter((file) => !isLong(file))];
  }
}

export default defineConfig({
  resolve: { conditions: ['dwellset-source'] },
  ssr: { resolve: { conditions: ['dwellset-source'] } },
  test: {
    projects: [
      // The bench is built once for all of them, and for nobody else.
      {
        extends: true,
        test: { name: 'browser', include: [BROWSER], globalSetup: ['tests/browser/build.ts'] },
      },
      {
        extends: true,
        test: {
          name: 'node',
          include: ['tests/**/*.test.ts', 'packages/*/src/**/*.test.ts'],
          exclude: ['**/node_modules/**', BROWSER],
        },
      },
    ],
    // Left alone, one core of a small machine stays idle.
    maxWorkers: '100%',
    // No file leaves anything behind in its process (no globals, no mocks), so libraries are loaded once a
    // worker rather than once a file.
    isolate: false,
    sequence: { sequencer: LongFirst },
    testTimeout: 180_000,
    hookTimeout: 180_000,
  },
});
