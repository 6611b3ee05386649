import { defineConfig } from 'vitest/config';
import { ClosingLines } from './tests/support/closing-lines.ts';

const endToEnd = (names: string): string => `tests/end-to-end/${names}.test.ts`;

/** These measure in their own worker; the engine finds its pace once for all, which takes two to three seconds. */
const measuringHere = [
  ...[
    'bracket',
    'closed-loop-*',
    'flat-field',
    'gate-table',
    'lamp-off',
    'lamps-*',
    'lit-figures',
    'live-against-full',
  ],
  ...['same-window', 'samples-against-truth', 'small-windows'],
].map(endToEnd);

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
          include: ['tests/!(end-to-end)/**/*.test.ts', ...measuringHere],
          // Loading the engine anew for each file took as long as the tests: none of these changes what another imports.
          isolate: false,
        },
      },
      // They start processes, and change what those inherit.
      { extends: true, test: { name: 'each by itself', include: [endToEnd('**/*')], exclude: measuringHere } },
    ],
    // Far beyond what they take: other work may share the machine.
    testTimeout: 180_000,
    hookTimeout: 300_000,
    setupFiles: ['tests/support/matchers.ts'],
  },
});
