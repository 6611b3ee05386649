import type { Mask } from '../base/plane';
import { medianOf } from '../base/stats';
import type { RectifiedWindow } from '../window/rectified';
import { luminanceWeights } from '../window/rgb-weights';

/** What the clipping and darkness gates ask of the glow, shares 0..1 of its cells. */
export interface GlowFacts {
  readonly cells: number;
  readonly redClippedShare: number;
  readonly greenClippedShare: number;
  readonly blueClippedShare: number;
  /** Any channel clipped. */
  readonly clippedShare: number;
  readonly outsideGamutShare: number;
  readonly nearBlackShare: number;
  readonly medianRelLuminance: number;
}

/** Linear luminance whose sRGB code is 8 of 255. */
const nearBlack = 8 / 255 / 12.92;

/**
 * Counts, on the 10 cells-a-mm grid, how much of the glow is clipped, out of gamut or nearly black.
 *
 * @param glow  the glow on the window's grid: inside the eroded outline, not print, not left out; not altered
 * @returns shares of the glow's cells; all 0 and the median 0 when there is no glow
 * @source limits: our own choice, see the gates
 * @rule GT4
 */
export function countGlow(window: RectifiedWindow, glow: Mask): GlowFacts {
  const [ofRed, ofGreen, ofBlue] = luminanceWeights;
  const luminances: number[] = [];
  const counts = { red: 0, green: 0, blue: 0, any: 0, gamut: 0, black: 0 };
  for (let i = 0; i < glow.values.length; i++) {
    const luminance = ofRed * window.red.values[i] + ofGreen * window.green.values[i] + ofBlue * window.blue.values[i];
    if (!glow.values[i] || !Number.isFinite(luminance)) continue;
    luminances.push(luminance);
    counts.red += window.redClipped.values[i];
    counts.green += window.greenClipped.values[i];
    counts.blue += window.blueClipped.values[i];
    counts.any += window.redClipped.values[i] | window.greenClipped.values[i] | window.blueClipped.values[i];
    counts.gamut += window.outsideGamut.values[i];
    if (luminance < nearBlack) counts.black += 1;
  }
  const cells = luminances.length;
  const share = (count: number): number => (cells ? count / cells : 0);
  return {
    cells,
    redClippedShare: share(counts.red),
    greenClippedShare: share(counts.green),
    blueClippedShare: share(counts.blue),
    clippedShare: share(counts.any),
    outsideGamutShare: share(counts.gamut),
    nearBlackShare: share(counts.black),
    medianRelLuminance: cells ? medianOf(luminances) : 0,
  };
}
