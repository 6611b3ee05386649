import type { GlowMap } from './glow-map';

/** The values of a plane of the map where it is glow, row by row. */
export function glowValues(plane: GlowMap['relLuminance'], glow: GlowMap['glow']): Float64Array {
  const values = new Float64Array(glow.values.length);
  let count = 0;
  for (let i = 0; i < glow.values.length; i++) if (glow.values[i]) values[count++] = plane.values[i];
  return values.subarray(0, count);
}

/**
 * Mean relative luminance of the glow, 1 = a white that fills the photo's scale; null when there is no glow.
 *
 * @source definition
 * @rule LU3
 */
export function glowMean(map: GlowMap): number | null {
  const values = glowValues(map.relLuminance, map.glow);
  return values.length ? values.reduce((sum, value) => sum + value, 0) / values.length : null;
}
