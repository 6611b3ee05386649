import type { Evidence } from './evidence';

const clamp01 = (x: number): number => Math.min(1, Math.max(0, x));

export function confidenceOf(e: Evidence): number {
  return clamp01(e.support) * clamp01(e.contrast / 1.5) * clamp01((e.overBrightSurroundings + 0.5) / 1.5);
}
