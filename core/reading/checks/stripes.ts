import type { Mask, Plane } from '../../base/plane';
import { type Homography, photoPointOf } from '../../window/homography';
import { cellNoise } from '../cell-noise';
import type { GlowMap } from '../glow-map';
import { flattenedLight, shareKept } from './flattened-light';
import { fitWave, taperedProfile, waveShare, waveSize, type LightProfile } from './profile-wave';

/** Stripes across the glow along the sensor's rows or columns. */
export interface Stripes {
  readonly along: 'rows' | 'columns';
  /** The wave's crest over its trough minus 1, a share of the light. */
  readonly peakToPeak: number;
  readonly cyclesInPhoto: number;
}

/** What one wave is judged by; for tests and reports, the figures of a photo without stripes too. */
export interface StripeCandidate extends Stripes {
  /** The wave over the largest of those 2 to 3 cycles away. */
  readonly overNeighbours: number;
  /** The weakest and the strongest of the glow's parts, over the whole: near 1 for stripes, not for lamps. */
  readonly weakestPart: number;
  readonly strongestPart: number;
}

/** Fewer over the window cannot be told from lamps. */
const fewestInWindow = 5;
/** More than this over the photo is as fine as print. METRICS 11. */
const mostInPhoto = 40;
const cyclesStep = 0.25;
const neighbours = [-3, -2.5, -2, 2, 2.5, 3];
/** The slow change that is taken out, deviation over the window's length. */
const sigmaShare = 1 / 12;
/** The glow is cut across the stripes into so many parts, which must agree. */
const parts = 4;
/** A wave below this, half its height in ln units, is not looked at. */
const leastSize = 0.0025;
/** Without stripes, 1.5 was the most of any rendered or real photo whose parts agree. */
const leastOverNeighbours = 2;
/** So many standard deviations of the waves that noise alone makes: one in 10,000 of them, and some 200 are looked at. */
const leastOverNoise = 4.3;
/** Noise that a tapered profile keeps (Hann): root of the mean square of the weights over their mean. */
const noiseOfTaper = 1.2247;
/** What a part may show of the whole's wave, either way from 1. */
const partsDiffer = 0.4;

interface Places {
  /** Across the stripes, px of the photo. */
  readonly along: Float64Array;
  readonly across: Float64Array;
}

/** Where each glow cell's centre lies in the photo, px. */
function photoPlaces(
  { glow, pxPerMm }: GlowMap,
  homography: Homography,
): { columns: Float64Array; rows: Float64Array } {
  const columns = new Float64Array(glow.values.length);
  const rows = new Float64Array(glow.values.length);
  for (let i = 0; i < glow.values.length; i++) {
    if (!glow.values[i]) continue;
    const cellRow = Math.floor(i / glow.width);
    const xMm = (i - cellRow * glow.width + 0.5) / pxPerMm;
    const { column, row } = photoPointOf(homography, { xMm, yMm: (cellRow + 0.5) / pxPerMm });
    columns[i] = column;
    rows[i] = row;
  }
  return { columns, rows };
}

function rangeOf(values: Float64Array, mask: Mask): { from: number; size: number } {
  let [from, to] = [Infinity, -Infinity];
  for (let i = 0; i < values.length; i++) {
    if (!mask.values[i]) continue;
    from = Math.min(from, values[i]);
    to = Math.max(to, values[i]);
  }
  return { from, size: to - from };
}

/** The light by its place along the axis: of the whole glow, and of those of its parts across that are mostly seen. */
function profilesOf(light: Plane, cells: Mask, { along, across }: Places, binPx: number): LightProfile[] {
  const [range, side] = [rangeOf(along, cells), rangeOf(across, cells)];
  const bins = Math.floor(range.size / binPx) + 1;
  const sums = Array.from({ length: parts + 1 }, () => new Float64Array(bins));
  const counts = sums.map(() => new Float64Array(bins));
  for (let i = 0; i < cells.values.length; i++) {
    if (!cells.values[i]) continue;
    const bin = Math.floor((along[i] - range.from) / binPx);
    const part = 1 + Math.min(parts - 1, Math.floor((parts * (across[i] - side.from)) / side.size));
    for (const p of [0, part]) {
      sums[p][bin] += light.values[i];
      counts[p][bin] += 1;
    }
  }
  const isSeen = (p: number): boolean => p === 0 || counts[p].filter((count) => count > 0).length > 0.6 * bins;
  return sums
    .map((sum, p) => (isSeen(p) ? taperedProfile(sum, counts[p]) : null))
    .filter((profile) => profile !== null);
}

/** The wave that stands out most from its neighbours, or null when none is high enough. */
function outstandingWave(whole: LightProfile, most: number): { cycles: number; size: number; over: number } | null {
  const first = fewestInWindow + neighbours[0];
  const sizes: number[] = [];
  for (let cycles = first; cycles <= most + neighbours[5]; cycles += cyclesStep) {
    sizes.push(waveSize(fitWave(whole, cycles)) / shareKept(sigmaShare * cycles));
  }
  const at = (cycles: number): number => sizes[Math.round((cycles - first) / cyclesStep)];
  let best: { cycles: number; size: number; over: number } | null = null;
  for (let cycles = fewestInWindow; cycles <= most; cycles += cyclesStep) {
    const size = at(cycles);
    const over = size / Math.max(...neighbours.map((away) => at(cycles + away)));
    if (size >= leastSize && (!best || over > best.over)) best = { cycles, size, over };
  }
  return best;
}

function candidateOf(
  profiles: readonly LightProfile[],
  binPx: number,
  photoPx: number,
): Omit<StripeCandidate, 'along'> | null {
  const [whole, ...split] = profiles;
  const bins = whole.means.length;
  const cyclesInPhotoPerWindow = photoPx / (bins * binPx);
  const best = outstandingWave(whole, Math.min(mostInPhoto / cyclesInPhotoPerWindow, bins / 4));
  if (!best) return null;
  const wave = fitWave(whole, best.cycles);
  const shares = split.map((part) => waveShare(fitWave(part, best.cycles), wave));
  return {
    peakToPeak: Math.exp(2 * best.size) - 1,
    cyclesInPhoto: best.cycles * cyclesInPhotoPerWindow,
    overNeighbours: best.over,
    weakestPart: Math.min(1, ...shares),
    strongestPart: Math.max(1, ...shares),
  };
}

/**
 * The wave along the photo's rows, and the one along its columns, that looks most like stripes, with what it is judged by.
 *
 * @param photo  upright size, px, and photo px a mm of the window
 * @returns none, one or two; a direction with too few cycles over the glow is left out
 * @source see `findStripes`
 * @rule CK2
 */
export function stripeCandidates(
  map: GlowMap,
  homography: Homography,
  photo: { readonly widthPx: number; readonly heightPx: number; readonly pxPerMm: number },
): StripeCandidate[] {
  const { columns, rows } = photoPlaces(map, homography);
  const binPx = photo.pxPerMm / map.pxPerMm;
  return (['rows', 'columns'] as const).flatMap((along) => {
    const places = along === 'rows' ? { along: rows, across: columns } : { along: columns, across: rows };
    const { size } = rangeOf(places.along, map.glow);
    const photoPx = along === 'rows' ? photo.heightPx : photo.widthPx;
    if (!((mostInPhoto * size) / photoPx > fewestInWindow)) return [];
    const { light, cells } = flattenedLight(map.relLuminance, map.glow, (sigmaShare * size) / binPx);
    if (!cells.values.includes(1)) return [];
    const candidate = candidateOf(profilesOf(light, cells, places, binPx), binPx, photoPx);
    return candidate ? [{ along, ...candidate }] : [];
  });
}

/** Height of a wave, half of crest over trough in ln units, that noise alone makes over the whole glow: one standard deviation. */
function waveOfNoise({ relLuminance, glow, pxPerMm }: GlowMap): number {
  const cells = glow.values.reduce((sum, value) => sum + value, 0);
  return cellNoise(relLuminance, glow, pxPerMm) * noiseOfTaper * Math.sqrt(2 / cells);
}

/**
 * Stripes that a flickering lamp leaves along the sensor's rows (or its columns, in a photo on end), or null.
 *
 * The glow's ln light without its slow change, by photo row and by photo column, print left out, against waves of 5 cycles
 * over the glow to 40 over the photo. It is a stripe when it is twice as high as every wave 2 to 3 cycles away (taper:
 * Hann) and all quarters of the glow across it show 0.6 to 1.4 of it in the same phase: hot spots fade
 * across, stripes do not. And it is 4.3 times what the noise of the cells leaves of a wave, s root(2 / n) over n cells. Fewer than 5 to 6 cycles over the glow, such as mains flicker over a low window, cannot be told
 * from lamps and are not found.
 *
 * @param map, homography  the glow and its way back into the photo; not altered
 * @param photo  upright size, px, and photo px a mm of the window
 * @returns the higher of the two directions
 * @source our own choice, tried on rendered samples with and without stripes
 * @rule CK2
 */
export function findStripes(...[map, homography, photo]: Parameters<typeof stripeCandidates>): Stripes | null {
  const found = stripeCandidates(map, homography, photo)
    .filter(({ overNeighbours }) => overNeighbours > leastOverNeighbours)
    .filter(({ weakestPart, strongestPart }) => weakestPart > 1 - partsDiffer && strongestPart < 1 + partsDiffer)
    .sort((a, b) => b.peakToPeak - a.peakToPeak);
  if (found.length === 0 || Math.log1p(found[0].peakToPeak) / 2 < leastOverNoise * waveOfNoise(map)) return null;
  const { along, peakToPeak, cyclesInPhoto } = found[0];
  return { along, peakToPeak, cyclesInPhoto };
}
