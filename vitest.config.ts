import { defineConfig } from 'vitest/config';

const shared = {
  environment: 'node',
  setupFiles: ['tests/support/require.ts'],
  testTimeout: 30_000,
  hookTimeout: 120_000,
} as const;

/** `tests` is what `npm test` runs; `prove` holds the long comparisons with outside oracles (`npm run prove`). */
export default defineConfig({
  test: {
    maxWorkers: 2,
    projects: [
      { test: { ...shared, name: 'tests', include: ['tests/**/*.test.ts'] } },
      { test: { ...shared, name: 'prove', include: ['tests/**/*.prove.ts'], testTimeout: 3_600_000 } },
    ],
  },
});
