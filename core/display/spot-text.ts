import type { SpotEntry } from '../contract/readings';

/** From here on a second decimal of the ratio says nothing. */
const coarseFrom = 0.3;

/**
 * A spot's ratio to the glow as it is shown everywhere: `3.5 ± 1.0`, `1.41 ± 0.09`; where it is but a bound `≥ 1.60`, and `≤ 0.71` of a
 * dark spot. The plus-minus is rounded up.
 *
 * @rule SP6
 */
export function spotRatioText({ kind, ratioToGlow, ratioPlusMinus }: SpotEntry): string {
  if (ratioPlusMinus === null) return `${kind === 'hot' ? '≥' : '≤'} ${ratioToGlow.toFixed(2)}`;
  const decimals = ratioPlusMinus < coarseFrom ? 2 : 1;
  const steps = Math.ceil(ratioPlusMinus * 10 ** decimals - 1e-9);
  return `${ratioToGlow.toFixed(decimals)} ± ${(steps / 10 ** decimals).toFixed(decimals)}`;
}

/** Its size in mm, 2 digits: `9.1`, `6.0`, `15`. */
export const spotSizeText = ({ diameterMm }: SpotEntry): string => diameterMm.toFixed(diameterMm < 9.95 ? 1 : 0);

/** Stands under every table of spots. @rule SP6, SP8 */
export const spotsNote =
  'Size: of a disk as large as the area that shows more than half of the spot’s contrast. Light has no edge, so this is ' +
  'no length that could be wrong by so many mm: it has no plus-minus, and tells broad spots from narrow ones. ' +
  'Ratio: cameras add contrast, so in a photo whose tone curve is unknown it is taken a little lower than the map shows (to the power ' +
  'of 0.95); an exposure series, or a stated encoding, leaves it as it is.';
