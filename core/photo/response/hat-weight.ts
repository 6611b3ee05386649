/** Codes outside say too little: noise and black below, the sensor's or curve's end above. */
const lowestCode = 4;
const highestCode = 251;

/**
 * How much a code value is trusted: min(z, 255 - z), 0 outside 4..251 and for NaN.
 *
 * @param code255  0..255
 * @returns 0..127.5
 * @source Debevec & Malik, Recovering high dynamic range radiance maps, 1997; limits: our own choice
 * @rule LU8
 */
export function hatWeight(code255: number): number {
  return code255 >= lowestCode && code255 <= highestCode ? Math.min(code255, 255 - code255) : 0;
}
