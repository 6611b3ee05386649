import { cosDeg, directionDeg, sinDeg } from './deterministic-angle';
import type { Triple } from './matrix3';

/** Hues exactly opposite are a tie that rounding noise would decide: differences are compared with this slack, degrees. */
const hueSlackDeg = 1e-9;
const power25To7 = 25 ** 7;

/**
 * CIE 1976 colour difference: the distance in L* a* b*.
 *
 * @source CIE 015:2018
 * @rule CO7
 */
export function deltaE76(lab1: Triple, lab2: Triple): number {
  return Math.sqrt((lab1[0] - lab2[0]) ** 2 + (lab1[1] - lab2[1]) ** 2 + (lab1[2] - lab2[2]) ** 2);
}

/** sqrt(C^7 / (C^7 + 25^7)): 0 for grey, towards 1 for vivid colours. */
function vividness(chroma: number): number {
  const power = chroma ** 7;
  return Math.sqrt(power / (power + power25To7));
}

/** Signed hue difference and mean hue, degrees; both go round the shorter way. */
function hueRelation(h1: number, h2: number, isGrey: boolean): { differenceDeg: number; meanDeg: number } {
  if (isGrey) return { differenceDeg: 0, meanDeg: h1 + h2 };
  const difference = h2 - h1;
  if (Math.abs(difference) <= 180 + hueSlackDeg) return { differenceDeg: difference, meanDeg: (h1 + h2) / 2 };
  const meanDeg = h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2;
  return { differenceDeg: difference > 0 ? difference - 360 : difference + 360, meanDeg };
}

/** Weight of the hue term; depends on where the mean hue lies. */
function hueWeight(meanDeg: number): number {
  return (
    1 -
    0.17 * cosDeg(meanDeg - 30) +
    0.24 * cosDeg(2 * meanDeg) +
    0.32 * cosDeg(3 * meanDeg + 6) -
    0.2 * cosDeg(4 * meanDeg - 63)
  );
}

/**
 * CIEDE2000 colour difference, with all parametric weights 1 (kL = kC = kH = 1); about 1 is just noticeable side by side.
 *
 * Symmetric. Meaningful up to about 5; beyond, an order more than a measure.
 *
 * @param lab1 @param lab2  both relative to one white
 * @source Sharma, Wu, Dalal, The CIEDE2000 Color-Difference Formula, Color Res. Appl. 30 (2005) 21-30; ISO/CIE 11664-6
 * @rule CO7
 */
export function deltaE00(lab1: Triple, lab2: Triple): number {
  const chromaMean = (chromaOf(lab1[1], lab1[2]) + chromaOf(lab2[1], lab2[2])) / 2;
  const stretch = 1 + 0.5 * (1 - vividness(chromaMean));
  const [a1, a2] = [stretch * lab1[1], stretch * lab2[1]];
  const [c1, c2] = [chromaOf(a1, lab1[2]), chromaOf(a2, lab2[2])];
  const hue = hueRelation(directionDeg(lab1[2], a1), directionDeg(lab2[2], a2), c1 * c2 === 0);
  const lightnessMean = (lab1[0] + lab2[0]) / 2 - 50;
  const primeMean = (c1 + c2) / 2;
  const lightness = (lab2[0] - lab1[0]) / (1 + (0.015 * lightnessMean ** 2) / Math.sqrt(20 + lightnessMean ** 2));
  const chroma = (c2 - c1) / (1 + 0.045 * primeMean);
  const hueSize = 2 * Math.sqrt(c1 * c2) * sinDeg(hue.differenceDeg / 2);
  const hueTerm = hueSize / (1 + 0.015 * primeMean * hueWeight(hue.meanDeg));
  const turnDeg = 60 * Math.exp(-(((hue.meanDeg - 275) / 25) ** 2));
  const rotation = -2 * vividness(primeMean) * sinDeg(turnDeg);
  return Math.sqrt(lightness ** 2 + chroma ** 2 + hueTerm ** 2 + rotation * chroma * hueTerm);
}

/** Chroma of an a*, b* pair; sqrt instead of hypot, which engines round differently. */
function chromaOf(a: number, b: number): number {
  return Math.sqrt(a * a + b * b);
}
