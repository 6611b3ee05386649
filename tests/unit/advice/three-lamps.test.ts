import { describe, expect, it } from 'vitest';
import { ledXyz } from '../../../core/advice/led';
import { asShares, colourOfMix } from '../../../core/advice/mix';
import { nextOfThree, type SeenTry, type SheetLamp } from '../../../core/advice/three-lamps';
import { uv1976FromXyz, xyFromUv1976, xyzFromXy, type Uv1976 } from '../../../core/colour/chromaticity';
import type { Triple } from '../../../core/colour/matrix3';
import { stepsFromUvDistance, uvDistance } from '../../../core/colour/steps';

const sheets: readonly SheetLamp[] = [
  { colour: ledXyz({ kind: 'xy', xy: { x: 0.31, y: 0.32 } }, null)!, isWhite: true },
  { colour: ledXyz({ kind: 'dominant', dominantNm: 625 }, null)!, isWhite: false },
  { colour: ledXyz({ kind: 'dominant', dominantNm: 525, halfWidthNm: 33 }, null)!, isWhite: false },
];

/** Lamps as bought: light a quarter off either way, colours a little beside their sheets. */
const gains = [1.2, 0.78, 1.25];
const off: readonly (readonly [number, number])[] = [[0.004, -0.003], [-0.02, 0.004], [0.02, -0.004]]; // prettier-ignore
const bought = sheets.map(({ colour }, i): Triple => {
  const { uPrime, vPrime } = uv1976FromXyz(colour);
  return xyzFromXy(xyFromUv1976({ uPrime: uPrime + off[i][0], vPrime: vPrime + off[i][1] }));
});
const shownOf = (ran: readonly number[]): Uv1976 => colourOfMix(ran.map((share, i) => share * gains[i]), bought); // prettier-ignore
const seen = (ran: readonly number[]): SeenTry => ({ ran, glow: shownOf(ran), isCutShort: false });
const stepsFrom = (ran: readonly number[], target: Uv1976): number => stepsFromUvDistance(uvDistance(shownOf(ran), target)); // prettier-ignore

describe('nextOfThree', () => {
  const wanted = [0.5, 0.3, 0.2];
  const target = shownOf(wanted);

  it('[LA20] lamps that are not what their sheets say come within 3 steps at the third try', () => {
    const first = asShares([0.62, 0.17, 0.21]);
    const second = nextOfThree(sheets, target, [seen(first)]);
    const third = nextOfThree(sheets, target, [seen(first), seen(second)]);
    expect(stepsFrom(first, target)).toBeGreaterThan(10);
    expect(stepsFrom(second, target)).toBeLessThan(0.5 * stepsFrom(first, target));
    expect(stepsFrom(third, target)).toBeLessThan(3);
  });

  it('[LA20] a try that shows the target is left as it is, within a quarter of a step and 2 % of each share', () => {
    const next = nextOfThree(sheets, target, [seen(wanted)]);
    next.forEach((share, i) => expect(share).toBeWithin(wanted[i], 0.02 * wanted[i]));
    expect(stepsFrom(next, target)).toBeLessThan(0.25); // a photo tells no more than 0.7
  });

  it('[LA20] no lamp is put out, and shares add up to 1, also where the target lies outside all mixes', () => {
    const green = { uPrime: 0.09, vPrime: 0.57 };
    const next = nextOfThree(sheets, green, [seen(wanted)]);
    expect(next.reduce((sum, share) => sum + share, 0)).toBeWithin(1, 1e-12);
    expect(Math.min(...next)).toBeGreaterThan(0.0005); // e^-5 and less light than the others
  });

  it('[LA20] a photo that cuts a colour short is not taken for the colour itself', () => {
    // Red and green alone lie outside sRGB: its blue would be below 0.
    const deep = asShares([0.02, 0.4, 0.58]);
    const colour = shownOf(deep);
    const cut = { uPrime: colour.uPrime - 0.004, vPrime: colour.vPrime - 0.006 };
    const [told, believed] = [true, false].map((isCutShort) =>
      nextOfThree(sheets, target, [{ ran: deep, glow: cut, isCutShort }]),
    );
    expect(told).not.toEqual(believed);
  });
});
