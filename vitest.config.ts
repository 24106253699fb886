import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

/** As in the bundles, a card file is imported as its text. */
const cardsAsText: Plugin = {
  name: 'cards-as-text',
  transform: (text, id) =>
    id.endsWith('.card') ? { code: `export default ${JSON.stringify(text)};`, map: null } : null,
};
const plugins = [cardsAsText];

const shared = {
  environment: 'node',
  setupFiles: ['tests/support/require.ts'],
  // Reached by what hangs, not by a machine that is busy.
  testTimeout: 600_000,
  hookTimeout: 600_000,
  expect: { poll: { timeout: 120_000, interval: 100 } },
} as const;

/** What a change is tried with while one works: no browser, no process, no long comparison (`npm run quick`). */
const slow = [
  'tests/{client,conformance,extension,faults,fuzz,neovim,oracle,paper,report,work-copy}/**',
  'tests/command-line/{package,process}.test.ts',
  'tests/grammar/{recovery,robustness}.test.ts',
  'tests/server/lsp/**',
];

/** `tests` is what `npm test` runs; `prove` holds the long comparisons with outside oracles (`npm run prove`), `pictures` takes the README's. */
export default defineConfig({
  test: {
    maxWorkers: 2,
    projects: [
      { plugins, test: { ...shared, name: 'tests', include: ['tests/**/*.test.ts'] } },
      { plugins, test: { ...shared, name: 'quick', include: ['tests/**/*.test.ts'], exclude: slow, isolate: false } },
      { plugins, test: { ...shared, name: 'pictures', include: ['tests/**/*.pictures.ts'] } },
      { plugins, test: { ...shared, name: 'prove', include: ['tests/**/*.prove.ts'], testTimeout: 3_600_000 } },
    ],
  },
});
