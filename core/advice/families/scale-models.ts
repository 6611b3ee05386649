import type { Spectrum } from '../../colour/spectra';

/** Transmission that rises from low to high along an edge: low + (high - low) / (1 + exp(-(nm - edge) / width)). */
function edge(low: number, high: number, edgeNm: number, widthNm: number): Spectrum {
  return (nm) => low + (high - low) / (1 + Math.exp(-(nm - edgeNm) / widthNm));
}

/** Where red print begins to let light through, and over how many nm it does so. */
export interface Pigment {
  readonly edgeNm: number;
  readonly widthNm: number;
}

/** Red prints from orange-red to deep red. @source our own choice */
export const usualPigments: readonly Pigment[] = [
  { edgeNm: 595, widthNm: 8 },
  { edgeNm: 590, widthNm: 6 },
  { edgeNm: 600, widthNm: 10 },
  { edgeNm: 610, widthNm: 10 },
];

/**
 * Transmission of red print, 0.03 to 0.85.
 *
 * @source our own model: organic reds have one steep edge
 * @rule LF2
 */
export function pigmentTransmission({ edgeNm, widthNm }: Pigment): Spectrum {
  return edge(0.03, 0.85, edgeNm, widthNm);
}

/**
 * Transmission of an amber-dyed scale, 0.05 to 0.85 over 15 nm about its edge.
 *
 * @param edgeNm  520 for a light amber, 545 for a deep one
 * @source our own model
 * @rule LF2
 */
export function dyeTransmission(edgeNm: number): Spectrum {
  return edge(0.05, 0.85, edgeNm, 15);
}

/**
 * Transmission of a coloured boot over a lamp, 0.02 to 0.9.
 *
 * @source our own model
 * @rule LF2
 */
export function bootTransmission(edgeNm: number): Spectrum {
  return edge(0.02, 0.9, edgeNm, 15);
}

/** A scale that takes no colour away. */
export const clearScale: Spectrum = () => 1;
