import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    // Two cores, and several tests start processes of their own.
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 120_000,
    setupFiles: ['tests/support/matchers.ts'],
    globalSetup: ['tests/support/build-once.ts'],
  },
});
