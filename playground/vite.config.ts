import { defineConfig } from 'vite';
import { offline } from './build/offline.ts';
import { policies } from './build/policies.ts';

export default defineConfig({
  // The built site may lie in any folder of a static server.
  base: './',
  resolve: { conditions: ['dwellset-source', 'module', 'browser', 'development|production'] },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  plugins: [policies(), offline()],
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    modulePreload: { polyfill: false },
    // A data address would be text that runs or loads from nowhere that the page's rules allow.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 6000,
  },
});
