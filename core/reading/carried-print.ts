import { createMask } from '../base/plane';
import { growthMm } from '../window/mark-growth';
import { dilateMask } from '../window/morphology';
import type { PrintMask, RectifiedWindow } from '../window/rectified';

/** Print that is known from another photo, on the same mm. */
export interface CarriedPrint {
  readonly mask: PrintMask;
  readonly from: 'reference' | 'trials' | 'printPhoto';
}

/** Print lies within this of where the other photo shows it: what registration, blur and noise may move an edge by. */
const nearMm = 0.3;

/**
 * The print of a photo beside what another photo of the series shows: its own dark marks where the other has print too, so that
 * no shadow is taken for print; the red marks of the other, since under some lights red looks like dark print. A print photo
 * is taken as it is.
 *
 * The own edges are kept: laid over a strong hot spot, another photo's hide more of it (CV 0.346 for 0.361 against 0.354).
 *
 * @param own     10 cells a mm
 * @param window  the photo's own, for how far marks are widened
 * @source our own choice, from rendered photos with truth
 * @rule PM10
 */
export function withCarriedPrint(own: PrintMask, carried: CarriedPrint, window: RectifiedWindow): PrintMask {
  if (carried.from === 'printPhoto') return carried.mask;
  const { red } = carried.mask;
  const { width, height } = own.dark;
  const known = createMask(width, height);
  for (let i = 0; i < known.values.length; i++) known.values[i] = carried.mask.dark.values[i] | red.values[i];
  const near = dilateMask(known, nearMm * window.pxPerMm);
  const dark = createMask(width, height);
  const marks = createMask(width, height);
  for (let i = 0; i < marks.values.length; i++) {
    const isOwn = (own.dark.values[i] | own.red.values[i]) === 1 && near.values[i] === 1;
    dark.values[i] = isOwn && red.values[i] === 0 ? 1 : 0;
    marks.values[i] = isOwn || red.values[i] === 1 ? 1 : 0;
  }
  return { dark, red, covered: dilateMask(marks, growthMm(marks, window) * window.pxPerMm) };
}
