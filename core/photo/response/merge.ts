import { blockMeans } from '../../base/block-means';
import { flagsOf, flagsOfBlocks, tablesOf, type Blocks, type CodeMeaning, type Curve, type Light } from '../code-light';
import { hatWeight } from './hat-weight';
import type { BracketFrame } from './samples';

/** Of every code: its weight, its light at the unit exposure, and both multiplied. */
interface CodeTables {
  readonly weight: Float64Array;
  readonly light: Float64Array;
  readonly weighted: Float64Array;
}

function tablesOfFrame({ codes, relExposure }: BracketFrame, curve: Curve): CodeTables {
  if (!(relExposure > 0)) throw new RangeError(`not an exposure: ${relExposure}`);
  const fullScale = codes instanceof Uint8Array ? 255 : 65535;
  const weight = Float64Array.from({ length: fullScale + 1 }, (_, code) => hatWeight((255 * code) / fullScale));
  const light = Float64Array.from(weight, (_, code) => curve(code / fullScale) / relExposure);
  return { weight, light, weighted: weight.map((value, code) => value * light[code]) };
}

/**
 * One channel of an exposure series: sum(w light / exposure) / sum(w), w = hat weight of the code.
 *
 * @param frames  one or more, registered, of rising exposure; not altered
 * @param curve   code 0..1 to light
 * @returns light at relative exposure 1, one value a pixel. Where no photo has a trusted code: of the longest exposure where
 *   all are too dark; of the shortest where it is clipped, which is at least so much
 * @throws RangeError for no frames, frames of different size, or an exposure not above 0
 * @source Debevec & Malik 1997, weighted mean (in linear light)
 * @rule LU8
 */
export function mergeChannel(frames: readonly BracketFrame[], channel: 0 | 1 | 2, curve: Curve): Float32Array {
  if (frames.length === 0) throw new RangeError('no photos to merge');
  if (frames.some(({ codes }) => codes.length !== frames[0].codes.length))
    throw new RangeError('photos differ in size');
  const tables = frames.map((frame) => tablesOfFrame(frame, curve));
  const shortest = frames[0].codes;
  const longest = frames[frames.length - 1].codes;
  const [ofShortest, ofLongest] = [tables[0], tables[tables.length - 1]];
  const middleCode = shortest instanceof Uint8Array ? 128 : 32768;
  const merged = new Float32Array(shortest.length / 3);
  for (let i = 0, at = channel; i < merged.length; i++, at += 3) {
    let [sum, weights] = [0, 0];
    for (let j = 0; j < frames.length; j++) {
      const code = frames[j].codes[at];
      sum += tables[j].weighted[code];
      weights += tables[j].weight[code];
    }
    if (weights > 0) merged[i] = sum / weights;
    else if (longest[at] < middleCode) merged[i] = ofLongest.light[longest[at]];
    else merged[i] = ofShortest.light[shortest[at]];
  }
  return merged;
}

/** Clipped is what even the shortest exposure has clipped; outside the colour space what the longest has there. */
function flagsOfSeries(frames: readonly BracketFrame[], { curves, codesAreLight }: CodeMeaning): Uint8Array {
  const fullScale = frames[0].codes instanceof Uint8Array ? 255 : 65535;
  const [red, green, blue] = curves.map((curve) => tablesOf(curve, fullScale, codesAreLight).states);
  const at = (codes: BracketFrame['codes'], i: number): number =>
    flagsOf(red[codes[3 * i]], green[codes[3 * i + 1]], blue[codes[3 * i + 2]]);
  const anyClipped = flagsOf(1, 1, 1);
  const shortest = frames[0].codes;
  const longest = frames[frames.length - 1].codes;
  return Uint8Array.from(
    { length: shortest.length / 3 },
    (_, i) => (at(shortest, i) & anyClipped) | (at(longest, i) & ~anyClipped),
  );
}

/**
 * The light of an exposure series, as `lightFromCodes` gives that of one photo.
 *
 * @param frames  registered, of rising exposure; not altered
 * @param unitExposure  relative exposure whose full scale is 1; light of shorter exposures goes beyond
 * @returns of blocks of pixels; flags of any pixel of a block
 * @throws RangeError as `mergeChannel`
 * @source Debevec & Malik 1997
 * @rule LU8, PX3
 */
export function mergedLight(
  frames: readonly BracketFrame[],
  meaning: CodeMeaning,
  unitExposure: number,
  blocks: Blocks,
): Light {
  const { matrix, curves } = meaning;
  const channels = ([0, 1, 2] as const).map((channel) => mergeChannel(frames, channel, curves[channel]));
  const [red, green, blue] = channels;
  const rows = matrix ?? [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const rgb = new Float32Array(3 * red.length);
  for (let i = 0, at = 0; i < red.length; i++, at += 3) {
    for (let k = 0; k < 3; k++) {
      const [ofRed, ofGreen, ofBlue] = rows[k];
      rgb[at + k] = unitExposure * (ofRed * red[i] + ofGreen * green[i] + ofBlue * blue[i]);
    }
  }
  const flags = flagsOfSeries(frames, meaning);
  if (blocks.by === 1) return { rgb, flags };
  const heightPx = red.length / blocks.regionWidth;
  return { rgb: blockMeans(rgb, blocks.regionWidth, heightPx, blocks.by), flags: flagsOfBlocks(flags, blocks) };
}
