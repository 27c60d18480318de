import { defineConfig } from 'vitest/config';

export default defineConfig({
  resolve: { conditions: ['dwellset-source'] },
  ssr: { resolve: { conditions: ['dwellset-source'] } },
  test: {
    include: ['tests/**/*.test.ts', 'packages/*/src/**/*.test.ts'],
    // Left alone, one core of a small machine stays idle.
    maxWorkers: '100%',
    testTimeout: 180_000,
    hookTimeout: 180_000,
  },
});
