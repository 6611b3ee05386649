import { createMask, type Mask } from '../../base/plane';
import { medianOf } from '../../base/stats';
import type { WindowPoint } from '../../base/points';
import type { RectifiedWindow } from '../../window/rectified';
import { coarseLight, topHat, type CoarseLight } from './top-hat';

/** A bright patch on the window that no lamp behind it can have made. */
export interface Reflection {
  readonly atMm: WindowPoint;
  readonly areaMm2: number;
  /** Its light over its surroundings minus 1, at its brightest. */
  readonly brighterBy: number;
  /** ln of blue over red above the surroundings, at its coolest. */
  readonly coolerBy: number;
  /** Median slope of ln luminance along its edge, a mm. */
  readonly edgePerMm: number;
}

/** A disk of this size does not fit into a reflection. */
const widestMm = 5;
const leastBrighter = 0.08;
const leastCooler = 0.1;
/** The opening follows the darkest cells of a noisy glow: by chance a cell stands 6 deviations above it. */
const aboveNoise = 6;
/** The hot spots of bare lamps reached 0.76 in samples, where the tone curve bleaches them, with edges under 0.12 a mm. */
const coolerAtItsPeak = 0.5;
const leastEdgePerMm = 0.25;
const leastAreaMm2 = 0.3;

/** Cells that touch one another, patch by patch. */
function patchesOf(mask: Mask): number[][] {
  const { width, values } = mask;
  const seen = new Uint8Array(values.length);
  const patches: number[][] = [];
  for (let start = 0; start < values.length; start++) {
    if (!values[start] || seen[start]) continue;
    const patch = [start];
    seen[start] = 1;
    for (let next = 0; next < patch.length; next++) {
      const at = patch[next];
      const column = at % width;
      for (const beside of [column > 0 ? at - 1 : -1, column < width - 1 ? at + 1 : -1, at - width, at + width]) {
        if (!values[beside] || seen[beside]) continue;
        seen[beside] = 1;
        patch.push(beside);
      }
    }
    patches.push(patch);
  }
  return patches;
}

/** Slopes of ln luminance at those cells of a patch's edge whose neighbours are all seen, a mm. */
function edgeSlopes(patch: readonly number[], { cells, logLuminance, pxPerMm }: CoarseLight): number[] {
  const { width } = cells;
  const inPatch = new Set(patch);
  const slopes: number[] = [];
  for (const at of patch) {
    const four = [at - 1, at + 1, at - width, at + width];
    if (four.every((i) => inPatch.has(i)) || !four.every((i) => cells.values[i])) continue;
    const [left, right, above, below] = four.map((i) => logLuminance.values[i]);
    slopes.push((Math.hypot(right - left, below - above) / 2) * pxPerMm);
  }
  return slopes;
}

/**
 * Patches of the glow that look like a reflection in the pane, largest first, before they are judged.
 *
 * @source see `findReflections`
 * @rule CK5
 */
export function reflectionCandidates(window: RectifiedWindow, glow: Mask): Reflection[] {
  const light = coarseLight(window, glow);
  const { cells, clipped, pxPerMm, noise } = light;
  const bright = topHat(light.logLuminance, cells, pxPerMm, widestMm);
  const cool = topHat(light.coolness, cells, pxPerMm, widestMm);
  const brighterThan = Math.max(leastBrighter, aboveNoise * noise.luminance);
  const coolerThan = Math.max(leastCooler, aboveNoise * noise.coolness);
  const marked = createMask(cells.width, cells.height);
  for (let i = 0; i < marked.values.length; i++) {
    marked.values[i] = bright.values[i] > brighterThan && cool.values[i] > coolerThan ? 1 : 0;
  }
  return patchesOf(marked)
    .filter((patch) => patch.length >= leastAreaMm2 * pxPerMm * pxPerMm && !patch.some((i) => clipped.values[i]))
    .map((patch) => {
      const meanOf = (along: (i: number) => number): number =>
        patch.reduce((sum, i) => sum + along(i), 0) / patch.length;
      const slopes = edgeSlopes(patch, light);
      return {
        atMm: {
          xMm: (meanOf((i) => i % cells.width) + 0.5) / pxPerMm,
          yMm: (meanOf((i) => Math.floor(i / cells.width)) + 0.5) / pxPerMm,
        },
        areaMm2: patch.length / (pxPerMm * pxPerMm),
        brighterBy: Math.exp(Math.max(...patch.map((i) => bright.values[i]))) - 1,
        coolerBy: Math.max(...patch.map((i) => cool.values[i])),
        edgePerMm: slopes.length ? medianOf(slopes) : 0,
      };
    })
    .sort((a, b) => b.areaMm2 - a.areaMm2);
}

/**
 * Reflections of the room in the pane over a glow that is warmer than the room's light.
 *
 * Patches of at least 0.3 mm^2, narrower than 5 mm, 8 % brighter and cooler than what surrounds them (white top-hats of
 * ln luminance and of ln blue/red) and by 6 times the noise of either, unclipped, 0.5 cooler at their peak, with edges of 0.25 a mm: behind a diffusing
 * scale a lamp has neither such an edge nor a colour of its own. Not found: reflections wider than that, soft ones,
 * clipped ones (a clipped hot spot looks the same) and those over cool white light.
 *
 * @param glow  the cells to look at, on the window's grid: in the shrunk outline, not print, not left out; not altered
 * @returns largest first
 * @source our own choice, tried on rendered samples with and without reflections
 * @rule CK5
 */
export function findReflections(window: RectifiedWindow, glow: Mask): Reflection[] {
  return reflectionCandidates(window, glow).filter(
    ({ coolerBy, edgePerMm }) => coolerBy >= coolerAtItsPeak && edgePerMm >= leastEdgePerMm,
  );
}
