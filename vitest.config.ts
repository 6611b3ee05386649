import { defineConfig } from 'vitest/config';
import { ClosingLines } from './tests/support/closing-lines';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    // Two cores, and several tests start processes of their own.
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 120_000,
    reporters: ['default', new ClosingLines()],
    setupFiles: ['tests/support/matchers.ts'],
    globalSetup: ['tests/support/build-once.ts'],
  },
});
