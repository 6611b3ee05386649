import { linearFromSrgb, srgbFromLinear } from '../../core/colour/transfer';
import type { BracketFrame } from '../../core/photo/response/samples';
import { seededRandom } from './seeded-random';

/** A camera's tone curve: code 0..1 of light 0..1, and back. */
export interface BentCurve {
  readonly codeOf: (light: number) => number;
  readonly lightOf: (code: number) => number;
}

/** The inverse of a rising curve of 0..1 by halving. */
function inverseOf(codeOf: (light: number) => number): (code: number) => number {
  return (code) => {
    let [low, high] = [0, 1];
    for (let step = 0; step < 50; step++) {
      const middle = (low + high) / 2;
      if (codeOf(middle) < code) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
}

const bent = (codeOf: (light: number) => number): BentCurve => ({ codeOf, lightOf: inverseOf(codeOf) });
const sCurve = (strength: number): BentCurve =>
  bent((light) => {
    const code = srgbFromLinear(light);
    return (1 - strength) * code + strength * code * code * (3 - 2 * code);
  });

/** Three kinds of camera beside the plain one: contrast raised, raised much, and highlights pressed together. */
export const bentCurves: Readonly<Record<string, BentCurve>> = {
  'plain sRGB': { codeOf: srgbFromLinear, lightOf: linearFromSrgb },
  'S curve 0.5': sCurve(0.5),
  'S curve 1.0': sCurve(1),
  shoulder: bent((light) => srgbFromLinear((1.6 * light * (1 + light / 1.6)) / (1 + 1.6 * light))),
};

export const oneEvSteps = [0.25, 0.5, 1, 2] as const;

/** Light of a drawn scene: a soft hot spot over a falling ground, with a few dark strokes; 0..1 at exposure 2. */
function sceneAt(column: number, row: number): number {
  const spot = Math.exp(-((column - 50) ** 2 + (row - 45) ** 2) / 500);
  const ground = 0.02 + 0.16 * (1 - column / 160) + 0.26 * spot;
  return column % 23 < 2 ? 0.1 * ground : ground;
}

/** The drawn scene (160 x 90 px) as an amber-lit camera sees it: noise of 20,000 electrons at full scale, 8-bit codes. */
export function drawnBracket(curve: BentCurve, exposures: readonly number[] = oneEvSteps): BracketFrame[] {
  const random = seededRandom(29);
  const tint = [1, 0.8, 0.3];
  return exposures.map((relExposure) => ({
    relExposure,
    codes: Uint8Array.from({ length: 160 * 90 * 3 }, (_, i) => {
      const pixel = Math.floor(i / 3);
      const light = tint[i % 3] * sceneAt(pixel % 160, Math.floor(pixel / 160)) * relExposure;
      // The sum of four even numbers is near enough to normal; this one has deviation 1.
      const deviate = Math.sqrt(3) * (random() + random() + random() + random() - 2);
      const noisy = light + deviate * Math.sqrt(light / 20_000);
      return Math.round(255 * curve.codeOf(Math.min(1, Math.max(0, noisy))));
    }),
  }));
}
