import { defineConfig } from 'vitest/config';
import { ClosingLines } from './tests/support/closing-lines';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    // Two cores, and several tests start processes of their own.
    maxWorkers: 2,
    // Loading the engine anew for each file took as long as the tests: no test changes what another one imports.
    isolate: false,
    // Far beyond what they take: other work may share the machine.
    testTimeout: 180_000,
    hookTimeout: 300_000,
    reporters: ['default', new ClosingLines()],
    setupFiles: ['tests/support/matchers.ts'],
    globalSetup: ['tests/support/build-once.ts'],
  },
});
