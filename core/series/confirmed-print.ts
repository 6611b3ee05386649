import { createMask, type Mask } from '../base/plane';
import { percentilesOf } from '../base/stats';
import { dilateMask } from '../window/morphology';
import type { PrintMask, RectifiedWindow } from '../window/rectified';
import { luminanceWeights } from '../window/rgb-weights';
import { growthMm } from '../window/mark-growth';

/** Print lies within this of where the other photo shows it: what registration, blur and noise may move an edge by. */
const nearMm = 0.3;
/** Darker than this share of the bright parts, the other photo cannot tell print from glow. */
const leastShare = 0.02;

/** Where the other photo can tell: measured, lit, not clipped. */
function tellingCells(other: RectifiedWindow): Mask {
  const { width, height, values: red } = other.red;
  const light = red.map(
    (value, i) =>
      luminanceWeights[0] * value +
      luminanceWeights[1] * other.green.values[i] +
      luminanceWeights[2] * other.blue.values[i],
  );
  const [bright] = percentilesOf(
    light.filter((value) => !Number.isNaN(value)),
    [98],
  );
  const telling = createMask(width, height);
  light.forEach((value, i) => {
    if (value > leastShare * bright && !other.greenClipped.values[i]) telling.values[i] = 1;
  });
  return telling;
}

/**
 * Dark print that two photos under unlike light both show: a shadow falls elsewhere when the lamp is another one. Dark cells
 * stay when the other photo has dark or red print within 0.3 mm, or cannot tell; red print stays, since no shadow is red.
 *
 * @param print       as the photo itself shows it, 10 cells a mm
 * @param otherPrint  as the other photo shows it, on the same mm
 * @param other       the other photo's window
 * @returns the print that is left, widened as rule PM4 says
 * @source our own choice
 * @rule PM9
 */
export function confirmedPrint(print: PrintMask, otherPrint: PrintMask, other: RectifiedWindow): PrintMask {
  const { width, height } = print.dark;
  const marks = createMask(width, height);
  const otherMarks = createMask(width, height);
  for (let i = 0; i < otherMarks.values.length; i++) {
    otherMarks.values[i] = otherPrint.dark.values[i] | otherPrint.red.values[i];
  }
  const near = dilateMask(otherMarks, nearMm * other.pxPerMm);
  const telling = tellingCells(other);
  const dark = createMask(width, height);
  for (let i = 0; i < dark.values.length; i++) {
    if (print.dark.values[i] && (near.values[i] || !telling.values[i])) dark.values[i] = 1;
    marks.values[i] = dark.values[i] | print.red.values[i];
  }
  return { dark, red: print.red, covered: dilateMask(marks, growthMm(marks, other) * other.pxPerMm) };
}
