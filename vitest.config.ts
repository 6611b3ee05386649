import { defineConfig } from 'vitest/config';
import { ClosingLines } from './tests/support/closing-lines';

/** They start processes, and change what those inherit. */
const inProcesses = 'tests/end-to-end/**/*.test.ts';

export default defineConfig({
  test: {
    // Two cores, and several tests start processes of their own.
    maxWorkers: 2,
    reporters: ['default', new ClosingLines()],
    globalSetup: ['tests/support/build-once.ts'],
    projects: [
      {
        extends: true,
        test: {
          name: 'in one worker',
          include: ['tests/**/*.test.ts'],
          exclude: [inProcesses],
          // Loading the engine anew for each file took as long as the tests: none of these changes what another imports.
          isolate: false,
        },
      },
      { extends: true, test: { name: 'each by itself', include: [inProcesses] } },
    ],
    // Far beyond what they take: other work may share the machine.
    testTimeout: 180_000,
    hookTimeout: 300_000,
    setupFiles: ['tests/support/matchers.ts'],
  },
});
