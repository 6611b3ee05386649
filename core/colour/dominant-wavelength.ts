import { xyFromXyz } from './chromaticity';
import { observerFirstNm } from './cie1931-2deg';
import type { Chromaticity } from './constants';
import { cie1931Observer } from './spectra';

export interface DominantWavelength {
  /** nm, between the 1 nm nodes of the locus. */
  readonly wavelengthNm: number;
  /** True for purples: the wavelength is that of the opposite colour. */
  readonly isComplementary: boolean;
  /** Excitation purity: distance from the white over that of the edge in the same direction; 0 white .. 1 spectral. */
  readonly purity: number;
}

/** Beyond 699 nm the published chromaticities stand still: the table's digits end, and the locus turns on itself. */
const lastUsefulNm = 699;

/**
 * Chromaticity of light of one wavelength, linear between the 1 nm nodes.
 *
 * @param wavelengthNm  360..830
 * @throws RangeError outside the observer's table
 * @source CIE 018:2019, ISO/CIE 11664-1
 * @rule CO12
 */
export function xyOfWavelength(wavelengthNm: number): Chromaticity {
  const { xBar, yBar, zBar } = cie1931Observer();
  const place = wavelengthNm - observerFirstNm;
  if (!(place >= 0 && place <= xBar.length - 1)) throw new RangeError(`no spectral colour at ${wavelengthNm} nm`);
  const node = (i: number): Chromaticity => xyFromXyz([xBar[i], yBar[i], zBar[i]]);
  const below = Math.min(Math.floor(place), xBar.length - 2);
  const share = place - below;
  const [a, b] = [node(below), node(below + 1)];
  return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
}

interface Crossing {
  /** Distance from the white in units of the direction's length; negative: behind the white. */
  readonly reach: number;
  /** Place on the side, 0..1. */
  readonly share: number;
}

/** Where the line white + reach * (dx, dy) crosses the side a-b; null when it misses it. */
function crossing(white: Chromaticity, dx: number, dy: number, a: Chromaticity, b: Chromaticity): Crossing | null {
  const [ex, ey] = [b.x - a.x, b.y - a.y];
  const denominator = dx * ey - dy * ex;
  if (denominator === 0) return null;
  const share = ((a.x - white.x) * dy - (a.y - white.y) * dx) / denominator;
  const reach = ((a.x - white.x) * ey - (a.y - white.y) * ex) / denominator;
  return share >= -1e-12 && share <= 1 + 1e-12 ? { reach, share } : null;
}

/** The crossings with the locus on either side of the white. */
function locusCrossings(white: Chromaticity, dx: number, dy: number): (Crossing & { wavelengthNm: number })[] {
  const found: (Crossing & { wavelengthNm: number })[] = [];
  let before = xyOfWavelength(observerFirstNm);
  for (let nm = observerFirstNm + 1; nm <= lastUsefulNm; nm++) {
    const after = xyOfWavelength(nm);
    const hit = crossing(white, dx, dy, before, after);
    if (hit) found.push({ ...hit, wavelengthNm: nm - 1 + hit.share });
    before = after;
  }
  return found;
}

/**
 * Dominant wavelength (nm) and excitation purity (0..1) of a chromaticity.
 *
 * The line from the white through the colour meets the spectral locus: that is the wavelength. When it meets the line
 * of purples instead, the wavelength is that of the opposite direction and `isComplementary` is true; the purity then
 * counts to the line of purples. Purity can pass 1 by 1e-4, since the locus between two nodes is taken as straight.
 *
 * @param white  the answer depends on it, so there is no default
 * @returns null when the colour is the white itself, or has no chromaticity (NaN)
 * @throws RangeError when the white is not inside the locus
 * @source CIE 015:2018; CIE S 017 (definitions)
 * @rule CO12
 */
export function dominantWavelengthOf(xy: Chromaticity, white: Chromaticity): DominantWavelength | null {
  const [dx, dy] = [xy.x - white.x, xy.y - white.y];
  if (!(dx * dx + dy * dy > 1e-18)) return null;
  const crossings = locusCrossings(white, dx, dy);
  const ahead = crossings.find((hit) => hit.reach > 0);
  if (ahead) return { wavelengthNm: ahead.wavelengthNm, isComplementary: false, purity: 1 / ahead.reach };
  const behind = crossings.find((hit) => hit.reach < 0);
  const purples = crossing(white, dx, dy, xyOfWavelength(observerFirstNm), xyOfWavelength(lastUsefulNm));
  if (!behind || !purples || purples.reach <= 0)
    throw new RangeError(`white outside the locus: ${white.x}, ${white.y}`);
  return { wavelengthNm: behind.wavelengthNm, isComplementary: true, purity: 1 / purples.reach };
}
