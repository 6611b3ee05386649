import { xyFromUv1976, type Uv1976 } from '../colour/chromaticity';
import { dominantWavelengthOf } from '../colour/dominant-wavelength';

/** Ends of the hues, nm. @source common practice, rounded to 5 nm; "amber" for what the trade sells as such */
const hues = [
  { below: 440, name: 'violet' },
  { below: 490, name: 'blue' },
  { below: 505, name: 'blue-green' },
  { below: 555, name: 'green' },
  { below: 575, name: 'yellow-green' },
  { below: 585, name: 'yellow' },
  { below: 610, name: 'amber' },
  { below: Infinity, name: 'red' },
] as const;

/**
 * The hue that a mix lacks: that of the dominant wavelength of the target, seen from the colour that was reached.
 *
 * @returns null when both are the same colour
 * @source CIE S 017 (dominant wavelength), with the reached colour as white
 * @rule LA13
 */
export function missingHue(reached: Uv1976, target: Uv1976): string | null {
  const [from, to] = [xyFromUv1976(reached), xyFromUv1976(target)];
  // A hair towards the target: a single lamp may lie on the locus itself, where a line has no inside to start from.
  const white = { x: from.x + 0.001 * (to.x - from.x), y: from.y + 0.001 * (to.y - from.y) };
  const dominant = dominantWavelengthOf(to, white);
  if (dominant === null) return null;
  if (dominant.isComplementary) return 'purple';
  return hues.find(({ below }) => dominant.wavelengthNm < below)!.name;
}
