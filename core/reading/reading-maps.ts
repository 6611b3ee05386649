import { createPlane, type Mask, type Plane } from '../base/plane';
import type { ReadingMaps } from '../contract/measure';
import { exposureNormalisation, type Exposure } from '../photo/exposure';
import { fillMasked } from '../window/fill';
import type { RectifiedWindow } from '../window/rectified';
import { chromaticityPlanes } from './colour-figures';
import { mapPxPerMm, type GlowView } from './glow-view';

/** The plane times a factor where the mask is 1, NaN elsewhere. */
function scaledWithin(plane: Plane, mask: Mask, factor: number): Plane {
  const scaled = createPlane(plane.width, plane.height, NaN);
  for (let i = 0; i < scaled.values.length; i++) if (mask.values[i]) scaled.values[i] = factor * plane.values[i];
  return scaled;
}

function interleaved(window: RectifiedWindow): ReadingMaps['window'] {
  const { width, height } = window.red;
  const rgb = new Float32Array(3 * width * height);
  [window.red, window.green, window.blue].forEach((plane, channel) => {
    for (let i = 0; i < plane.values.length; i++) rgb[3 * i + channel] = plane.values[i];
  });
  return { width, height, rgb };
}

/**
 * The planes that maps and pictures are made from. Luminance is exposure-normalised when the exposure is known.
 *
 * @rule RD8
 */
export function readingMaps(view: GlowView, residual: Plane | null, exposure: Exposure | null): ReadingMaps {
  const { map, window, print } = view;
  const scale = exposure ? exposureNormalisation(exposure) : 1;
  const covered = { ...map.printFree, values: map.printFree.values.map((isFree) => (isFree ? 0 : 1)) };
  const filled = fillMasked(map.relLuminance, covered, mapPxPerMm, view.outline);
  return {
    widthMm: map.widthMm,
    heightMm: map.heightMm,
    glowLuminance: scaledWithin(map.relLuminance, map.glow, scale),
    exposureNormalised: exposure !== null,
    filledLuminance: scaledWithin(filled, view.outline, scale),
    ...chromaticityPlanes(map),
    visibleUnevenness: residual,
    redPrint: print.red,
    darkPrint: print.dark,
    coveredByPrint: print.covered,
    isFromGreen: view.usesGreen,
    window: interleaved(window),
  };
}
