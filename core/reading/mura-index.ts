/**
 * How far a blemish of a display stands above what is just seen: |C| / (1.97 / S^0.33 + 0.72).
 *
 * Made for blemishes of even displays at 50 cd/m2 and 500 mm. Large spots of a small window lie outside its scope: secondary.
 *
 * @param contrastPercent  contrast to the surround, per cent; its sign is ignored
 * @param areaMm2          above 0
 * @returns 0 or more; 1 = just seen
 * @throws RangeError for an area not above 0
 * @source SEMI D31-1102, section 6
 * @rule EV7
 */
export function muraIndex(contrastPercent: number, areaMm2: number): number {
  if (!(areaMm2 > 0)) throw new RangeError(`not an area: ${areaMm2} mm2`);
  return Math.abs(contrastPercent) / (1.97 / Math.pow(areaMm2, 0.33) + 0.72);
}
