/** One photo of an exposure series as its samples are taken from it. */
export interface BracketFrame {
  /** Interleaved red, green, blue codes of a region; all frames of one size, registered to each other. */
  readonly codes: Uint8Array | Uint16Array;
  /** Relative to the other frames, above 0: exposure time, as nothing else may change. */
  readonly relExposure: number;
}

/** The same places of one channel in every photo of an exposure series. */
export interface ChannelSamples {
  /** By photo, of rising exposure; codes 0..1 of full scale, all of one length. */
  readonly codes: readonly Float64Array[];
  /** By photo, rising. */
  readonly relExposures: readonly number[];
}

/** Samples in all, a channel. @source Mitsunaga & Nayar use thousands; the number is our own choice */
const mostSamples = 3000;
/** Brightness steps that get an equal part of them, so that the few bright places count as the many dim ones do. */
const steps = 24;
/** Across 3 x 3 pixels codes may differ by so much of full scale: edges of print are left out. @source our own choice */
const flatWithin = 20 / 255;

const fullScaleOf = (codes: BracketFrame['codes']): number => (codes instanceof Uint8Array ? 255 : 65535);

/** Mean code of 3 x 3 pixels around a place, 0..1; NaN where they differ too much. */
function flatMean(codes: BracketFrame['codes'], at: number, rowStep: number): number {
  let [sum, least, most] = [0, Infinity, -Infinity];
  for (let down = -rowStep; down <= rowStep; down += rowStep) {
    for (let across = -3; across <= 3; across += 3) {
      const code = codes[at + down + across];
      sum += code;
      if (code < least) least = code;
      if (code > most) most = code;
    }
  }
  const fullScale = fullScaleOf(codes);
  return most - least <= flatWithin * fullScale ? sum / (9 * fullScale) : NaN;
}

/** The step of brightness that a place belongs to, by the sum of its codes in all photos. */
function stepOf(codes: readonly number[]): number {
  const mean = codes.reduce((sum, code) => sum + code, 0) / codes.length;
  return Math.min(steps - 1, Math.floor(mean * steps));
}

/**
 * Places of one channel that can tell its tone curve: 3 x 3 pixels that are alike in every photo, as their mean, spread
 * evenly over the photo and over its brightness. The same frames give the same samples.
 *
 * @param frames  two or more, in any order; not altered
 * @param channel 0 red, 1 green, 2 blue
 * @param widthPx of the frames' region
 * @returns at most 3000 places; none where the photos are too small or have only edges
 * @source samples averaged over space, as Mitsunaga & Nayar 1999 advise; even spread instead of chance: our own choice
 * @rule BR1
 */
export function sampleChannel(frames: readonly BracketFrame[], channel: 0 | 1 | 2, widthPx: number): ChannelSamples {
  const sorted = [...frames].sort((a, b) => a.relExposure - b.relExposure);
  const heightPx = sorted[0].codes.length / 3 / widthPx;
  const stride = Math.max(1, Math.floor(Math.sqrt((widthPx * heightPx) / 60_000)));
  const found: number[][][] = Array.from({ length: steps }, () => []);
  for (let row = 1; row < heightPx - 1; row += stride) {
    for (let column = 1; column < widthPx - 1; column += stride) {
      const at = 3 * (row * widthPx + column) + channel;
      const codes = sorted.map((frame) => flatMean(frame.codes, at, 3 * widthPx));
      if (codes.every(Number.isFinite)) found[stepOf(codes)].push(codes);
    }
  }
  const places = found.flatMap((ofStep) => thinned(ofStep, Math.floor(mostSamples / steps)));
  return {
    codes: sorted.map((_, frame) => Float64Array.from(places, (codes) => codes[frame])),
    relExposures: sorted.map(({ relExposure }) => relExposure),
  };
}

/** Every n-th, so that at most so many are left. */
function thinned<T>(list: readonly T[], most: number): T[] {
  const kept = Math.min(most, list.length);
  return Array.from({ length: kept }, (_, i) => list[Math.floor((i * list.length) / kept)]);
}

/** The samples without one of the photos. */
export function withoutFrame({ codes, relExposures }: ChannelSamples, left: number): ChannelSamples {
  return {
    codes: codes.filter((_, frame) => frame !== left),
    relExposures: relExposures.filter((_, frame) => frame !== left),
  };
}
