import { createRequire } from 'node:module';
import type sharp from 'sharp';

/**
 * The picture encoder, when it is first needed. Its `require` build: its ESM is beyond the Node of the oldest runtime that
 * the window works with, and a bundle leaves `import()` as it is.
 */
export function loadSharp(): typeof sharp {
  return createRequire(__filename)('sharp') as typeof sharp;
}
