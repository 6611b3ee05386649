/**
 * Contrast sensitivity of the eye: one over the smallest visible contrast of a grating.
 *
 * S(u) = 5200 exp(-0.0016 u^2 (1 + 100/L)^0.08) / sqrt((1 + 144/A + 0.64 u^2) (63/L^0.83 + 1/(1 - exp(-0.02 u^2)))).
 * Runs 0 to 16 % below the author's full model. Laboratory thresholds: practised, forced-choice viewing.
 *
 * @param cyclesPerDeg    above 0; at 0 the sensitivity is 0 (the limit)
 * @param luminanceCdM2   luminance that the eye is adapted to, above 0
 * @param areaDeg2        area of the field, square degrees, above 0
 * @returns 0 or more, no unit
 * @source Barten, Formula for the contrast sensitivity of the human eye, Proc. SPIE 5294, 2003
 * @rule EV2
 */
export function contrastSensitivity(cyclesPerDeg: number, luminanceCdM2: number, areaDeg2: number): number {
  const u2 = cyclesPerDeg * cyclesPerDeg;
  const optics = 5200 * Math.exp(-0.0016 * u2 * Math.pow(1 + 100 / luminanceCdM2, 0.08));
  const field = 1 + 144 / areaDeg2 + 0.64 * u2;
  const noise = 63 / Math.pow(luminanceCdM2, 0.83) + 1 / (1 - Math.exp(-0.02 * u2));
  return optics / Math.sqrt(field * noise);
}
