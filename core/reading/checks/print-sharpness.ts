import { createMask, createPlane } from '../../base/plane';
import type { PrintMask, RectifiedWindow } from '../../window/rectified';
import { luminanceWeights } from '../../window/rgb-weights';
import { edgeWidths, type EdgeWidths } from './edge-width';

/** How sharp a photo shows its print. */
export interface PrintSharpness extends EdgeWidths {
  /** The wider of the two directions, mm; null when neither has edges. */
  readonly edgeMm: number | null;
  /** The same in photo pixels. */
  readonly edgePx: number | null;
}

/**
 * The 10-to-90 % width of the print's edges in the straightened window's luminance, dark and red print together.
 *
 * @param window  the straightened window; not altered
 * @param print   its print, `dark` and `red` before they were widened; not altered
 * @param photoPxPerMm  photo pixels a mm of the window
 * @returns mm and px; null without print that is dark enough
 * @source see `edgeWidths`
 * @rule CK1
 */
export function printSharpness(window: RectifiedWindow, print: PrintMask, photoPxPerMm: number): PrintSharpness {
  const { width, height } = window.green;
  const [ofRed, ofGreen, ofBlue] = luminanceWeights;
  const luminance = createPlane(width, height);
  const marks = createMask(width, height);
  for (let i = 0; i < marks.values.length; i++) {
    luminance.values[i] =
      ofRed * window.red.values[i] + ofGreen * window.green.values[i] + ofBlue * window.blue.values[i];
    marks.values[i] = print.dark.values[i] | print.red.values[i];
  }
  const widths = edgeWidths(luminance, marks, window.pxPerMm);
  const seen = [widths.alongXMm, widths.alongYMm].filter((mm) => mm !== null);
  const edgeMm = seen.length ? Math.max(...seen) : null;
  return { ...widths, edgeMm, edgePx: edgeMm === null ? null : edgeMm * photoPxPerMm };
}
