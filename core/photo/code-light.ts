import type { PixelRegion } from '../base/linear-photo';
import type { Matrix3 } from '../colour/matrix3';
import { linearFromSrgb, srgbFromLinear } from '../colour/transfer';
import { blueClipped, greenClipped, outsideGamut, redClipped } from './linear-photo';

export type Curve = (code: number) => number;

/** How codes of 0..1 become linear sRGB. */
export interface CodeMeaning {
  readonly curves: readonly [Curve, Curve, Curve];
  /** Null: the primaries are those of sRGB already. */
  readonly matrix: Matrix3 | null;
  readonly codesAreLight: boolean;
}

/** Above this share of full scale a channel no longer tells how bright the light was. */
const clippedFrom = 250 / 255;
const clippedFromLinear = 0.98;
/** An encoded channel up to the first, while another is above the second, was cut off at the colour space's border. */
const emptyUpTo = 1 / 255;
const litFrom = 40 / 255;

const isClipped = 1;
const isEmpty = 2;
const isLit = 4;

/** Light of every code, and whether the code is clipped, empty or lit. @rule PX1, PX3 */
export function tablesOf(
  curve: Curve,
  fullScale: number,
  codesAreLight: boolean,
): { light: Float64Array; states: Uint8Array } {
  const light = new Float64Array(fullScale + 1);
  const states = new Uint8Array(fullScale + 1);
  const clipped = codesAreLight ? clippedFromLinear : clippedFrom;
  // The borders of the colour space are judged as seen, so linear codes are compared with the borders' light.
  const empty = codesAreLight ? linearFromSrgb(emptyUpTo) : emptyUpTo;
  const lit = codesAreLight ? linearFromSrgb(litFrom) : litFrom;
  for (let code = 0; code <= fullScale; code++) {
    const share = code / fullScale;
    light[code] = curve(share);
    states[code] = (share >= clipped ? isClipped : 0) | (share <= empty ? isEmpty : 0) | (share > lit ? isLit : 0);
  }
  return { light, states };
}

/** Flags of a pixel by the states of its channels. @rule PX3 */
export function flagsOf(red: number, green: number, blue: number): number {
  const any = red | green | blue;
  return (
    (red & isClipped ? redClipped : 0) |
    (green & isClipped ? greenClipped : 0) |
    (blue & isClipped ? blueClipped : 0) |
    (any & isEmpty && any & isLit ? outsideGamut : 0)
  );
}

/** Linear sRGB, interleaved, with its flags. */
export interface Light {
  readonly rgb: Float32Array;
  readonly flags: Uint8Array;
}

/** Light of blocks of by x by pixels of a region: sums line by line, means at the end of each row of blocks. */
export interface Blocks {
  readonly by: number;
  /** Pixels of the region across, and blocks across and down. */
  readonly regionWidth: number;
  readonly width: number;
  readonly height: number;
}

/** Whole blocks only. @rule PX14 */
export function blocksOf({ width, height }: PixelRegion, by: number): Blocks {
  return { by, regionWidth: width, width: Math.floor(width / by), height: Math.floor(height / by) };
}

/** Flags of blocks: what any pixel of a block has. @rule PX3 */
export function flagsOfBlocks(flags: Uint8Array, { by, regionWidth, width, height }: Blocks): Uint8Array {
  const all = new Uint8Array(width * height);
  for (let line = 0; line < height * by; line++) {
    const row = Math.floor(line / by) * width;
    for (let cell = 0, at = line * regionWidth; cell < width; cell++) {
      for (let i = 0; i < by; i++, at++) all[row + cell] |= flags[at];
    }
  }
  return all;
}

/**
 * Linear light of code values, of blocks of pixels.
 *
 * @param codes   interleaved red, green, blue of a region; not altered
 * @param curves  from a code (0..1) to light, a channel; each is worked out once a code
 * @param matrix  to linear sRGB; null: it is that already
 * @rule PX1, PX3
 */
export function lightFromCodes(codes: Uint8Array | Uint16Array, conversion: CodeMeaning, blocks: Blocks): Light {
  const fullScale = codes instanceof Uint8Array ? 255 : 65535;
  const built = new Map<Curve, ReturnType<typeof tablesOf>>();
  const [red, green, blue] = conversion.curves.map((curve) => {
    if (!built.has(curve)) built.set(curve, tablesOf(curve, fullScale, conversion.codesAreLight));
    return built.get(curve)!;
  });
  const [[rr, rg, rb], [gr, gg, gb], [br, bg, bb]] = conversion.matrix ?? [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const flagOfStates = Uint8Array.from({ length: 512 }, (_, key) => flagsOf(key >> 6, (key >> 3) & 7, key & 7));
  const { by, regionWidth, width, height } = blocks;
  const cells = by * by;
  const rgb = new Float32Array(3 * width * height);
  const flags = new Uint8Array(width * height);
  // The matrix is linear, so that it is applied to the sums of a row of blocks.
  const sums = new Float64Array(3 * width);
  for (let row = 0; row < height; row++) {
    const firstFlag = row * width;
    sums.fill(0);
    for (let line = row * by; line < (row + 1) * by; line++) {
      let i = 3 * line * regionWidth;
      for (let cell = 0; cell < width; cell++) {
        let seen = 0;
        let r = 0;
        let g = 0;
        let b = 0;
        for (let k = 0; k < by; k++, i += 3) {
          const ofRed = codes[i];
          const ofGreen = codes[i + 1];
          const ofBlue = codes[i + 2];
          r += red.light[ofRed];
          g += green.light[ofGreen];
          b += blue.light[ofBlue];
          seen |= flagOfStates[(red.states[ofRed] << 6) | (green.states[ofGreen] << 3) | blue.states[ofBlue]];
        }
        sums[3 * cell] += r;
        sums[3 * cell + 1] += g;
        sums[3 * cell + 2] += b;
        flags[firstFlag + cell] |= seen;
      }
    }
    for (let cell = 0, to = 3 * firstFlag; cell < 3 * width; cell += 3, to += 3) {
      const r = sums[cell] / cells;
      const g = sums[cell + 1] / cells;
      const b = sums[cell + 2] / cells;
      rgb[to] = rr * r + rg * g + rb * b;
      rgb[to + 1] = gr * r + gg * g + gb * b;
      rgb[to + 2] = br * r + bg * g + bb * b;
    }
  }
  return { rgb, flags };
}

/** The state of light that the decoder's colour engine found, as its sRGB code value would have it. */
function stateOfLight(light: number): number {
  return (
    (light >= linearFromSrgb(clippedFrom) ? isClipped : 0) |
    (srgbFromLinear(light) <= emptyUpTo ? isEmpty : 0) |
    (srgbFromLinear(light) > litFrom ? isLit : 0)
  );
}

/** Flags for light without codes; where there are codes, they know better what was clipped. @rule PX3 */
export function flagsOfLight(rgb: Float32Array): Uint8Array {
  return Uint8Array.from({ length: rgb.length / 3 }, (_, i) =>
    flagsOf(stateOfLight(rgb[3 * i]), stateOfLight(rgb[3 * i + 1]), stateOfLight(rgb[3 * i + 2])),
  );
}
