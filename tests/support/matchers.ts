import { expect } from 'vitest';

// A stated tolerance, in the quantity's own unit: no bare toBeCloseTo (its second argument is digits, not a distance).
expect.extend({
  toBeWithin(received: number, expected: number, tolerance: number) {
    const pass = Number.isFinite(received) && Math.abs(received - expected) <= tolerance;
    return { pass, message: () => `${received} is ${pass ? '' : 'not '}within ${tolerance} of ${expected}` };
  },
});

declare module 'vitest' {
  // eslint-disable-next-line @typescript-eslint/no-unused-vars -- the type parameter is part of the interface that is extended
  interface Matchers<T> {
    /** |received - expected| <= tolerance, all in the same unit. */
    toBeWithin(expected: number, tolerance: number): void;
  }
}
