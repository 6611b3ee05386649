import { createMask, type Mask } from '../base/plane';
import type { WindowSpec } from '../contract/measure';
import { borderMm, outlineMask } from '../window/outline';
import { polygonMask } from '../window/polygon';

/** What of a window's glow its outline and its left-out patches decide, whatever the photo shows. */
export interface GlowOutline {
  /** How much of the outline's rim is cut off, mm. */
  readonly borderMm: number;
  /** The full outline on the window's grid, by the cells' centres. */
  readonly full: Mask;
  /** The outline less the ring that the lens's blur darkens, on the window's grid, by the cells' centres. */
  readonly inner: Mask;
  /** The outline shrunk by the border on the map's grid, whole cells only. */
  readonly erodedWhole: Mask;
  /** Patches that the user left out, on the window's grid. */
  readonly leftOut: Mask;
}

/** What a lens's blur darkens along the outline; it must not leak in where the map is smoothed. */
const blurredRingMm = 0.3;

/**
 * The masks that a window's description gives by itself.
 *
 * @param windowPxPerMm  cells a mm of the straightened window
 * @param mapPxPerMm     cells a mm of the map
 * @throws AppError of kind 'usage' for polygons that cannot be meant
 * @rule RD2
 */
export function glowOutlineOf(
  { shape, leaveOut, widthMm, heightMm }: Pick<WindowSpec, 'shape' | 'leaveOut' | 'widthMm' | 'heightMm'>,
  windowPxPerMm: number,
  mapPxPerMm: number,
): GlowOutline {
  const border = borderMm(widthMm, heightMm);
  const full = outlineMask(shape, widthMm, heightMm, windowPxPerMm, 0, 'centre');
  const leftOut = createMask(full.width, full.height);
  for (const points of leaveOut) {
    const one = polygonMask(points, widthMm, heightMm, windowPxPerMm, 'touch');
    for (let i = 0; i < leftOut.values.length; i++) leftOut.values[i] |= one.values[i];
  }
  return {
    borderMm: border,
    full,
    inner: outlineMask(shape, widthMm, heightMm, windowPxPerMm, Math.min(blurredRingMm, border / 2), 'centre'),
    erodedWhole: outlineMask(shape, widthMm, heightMm, mapPxPerMm, border, 'whole'),
    leftOut,
  };
}
