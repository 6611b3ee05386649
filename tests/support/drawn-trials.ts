import type { Corners } from '../../core/base/points';
import { srgbFromLinear } from '../../core/colour/transfer';
import { compareSeries } from '../../core/compare/compare-series';
import type { ShownWindow } from '../../core/compare/find-matches';
import type { Comparison } from '../../core/contract/comparison';
import type { LightKind } from '../../core/contract/light';
import type { MeasureJob } from '../../core/contract/measure';
import { measurePhotos } from '../../core/engine';
import type { DecodedPhoto } from '../../core/photo/decoded-photo';
import { homographyFromCorners, windowPointOf } from '../../core/window/homography';
import { drawDecoded } from '../unit/photo/draw-decoded';
import { seededRandom } from './seeded-random';

/** Light behind a drawn scale of 30 x 10 mm. */
export interface DrawnLight {
  readonly kind: LightKind;
  /** Brightness of the glow away from spots, at exposure 1; 1 = full scale. */
  readonly level: number;
  /** Linear red, green and blue of the glow, and of the red print over it. */
  readonly glow: readonly [number, number, number];
  readonly redPrint: readonly [number, number, number];
  /** Peak of the hot spot over the rest, and where it is. */
  readonly spot: number;
  readonly spotXMm?: number;
}

/** How a drawn scale is photographed. */
export interface DrawnPhoto {
  readonly name: string;
  readonly light: DrawnLight;
  readonly model?: string;
  /** Light let in, times. */
  readonly exposure?: number;
  /** Strength of the camera's S curve over sRGB. */
  readonly curve?: number;
  readonly seed?: number;
  /** How far each corner is moved, px. */
  readonly movedPx?: number;
}

/** A filament behind amber-tinted paper, and LEDs of two kinds: invented numbers. */
export const filamentGlow = { glow: [1, 0.62, 0.2], redPrint: [0.72, 0.12, 0.05] } as const;
export const whiteGlow = { glow: [0.94, 0.7, 0.36], redPrint: [0.62, 0.13, 0.08] } as const;
export const amberGlow = { glow: [1, 0.48, 0.02], redPrint: [0.4, 0.18, 0.01] } as const;

const [widthPx, heightPx, widthMm, heightMm] = [340, 150, 30, 10] as const;
const corners0: Corners = [
  { column: 34, row: 28 },
  { column: 304, row: 30 },
  { column: 306, row: 121 },
  { column: 32, row: 118 },
];
const frontLight = 0.0006;
/** Fine enough that a pixel, a ninth of a mm, needs no more than the nearest cell. */
const cellsPerMm = 25;

/** What print lets through at a place: dark ticks and a line, red ticks at the right end. */
function printAt(xMm: number, yMm: number): 'dark' | 'red' | null {
  const place = xMm % 4;
  const isTick = place > 1.3 && place < 2.6 && yMm > 2 && yMm < (Math.floor(xMm / 4) % 2 ? 3.8 : 4.6);
  const isLine = yMm > 6.4 && yMm < 7.8 && xMm > 2 && xMm < 28;
  if (!isTick && !isLine) return null;
  return xMm > 19 ? 'red' : 'dark';
}

function lightAt({ level, glow, redPrint, spot, spotXMm = 11 }: DrawnLight, xMm: number, yMm: number): number[] {
  const hot = 1 + (spot - 1) * Math.exp(-((xMm - spotXMm) ** 2 + (yMm - 5) ** 2) / 25);
  const print = printAt(xMm, yMm);
  const colour = print === 'red' ? redPrint : glow;
  const share = level * hot * (print === 'dark' ? 0.04 : 1);
  return colour.map((value) => value * share);
}

const [cellsWide, cellsHigh] = [widthMm * cellsPerMm, heightMm * cellsPerMm];

/** The scale's light, cell by cell. */
function drawnScale(light: DrawnLight): Float32Array {
  const cells = new Float32Array(3 * cellsWide * cellsHigh);
  for (let i = 0; i < cellsWide * cellsHigh; i++) {
    cells.set(
      lightAt(light, ((i % cellsWide) + 0.5) / cellsPerMm, (Math.floor(i / cellsWide) + 0.5) / cellsPerMm),
      3 * i,
    );
  }
  return cells;
}

function codeOf(light: number, curve: number): number {
  const code = srgbFromLinear(Math.min(1, Math.max(0, light)));
  return Math.round(255 * ((1 - curve) * code + curve * code * code * (3 - 2 * code)));
}

function drawnPhoto({ light, exposure = 1, curve = 0, seed = 1, movedPx = 0, model = 'One' }: DrawnPhoto): {
  readonly decoded: DecodedPhoto;
  readonly corners: Corners;
} {
  const random = seededRandom(seed);
  for (let i = 0; i < 10; i++) random();
  const corners = corners0.map(({ column, row }) => ({
    column: column + movedPx * (2 * random() - 1),
    row: row + movedPx * (2 * random() - 1),
  })) as unknown as Corners;
  const homography = homographyFromCorners(corners, widthMm, heightMm);
  const scale = drawnScale(light);
  const codes = new Uint8Array(widthPx * heightPx * 3);
  for (let pixel = 0; pixel < widthPx * heightPx; pixel++) {
    const { xMm, yMm } = windowPointOf(homography, {
      column: (pixel % widthPx) + 0.5,
      row: Math.floor(pixel / widthPx) + 0.5,
    });
    const [across, down] = [Math.floor(xMm * cellsPerMm), Math.floor(yMm * cellsPerMm)];
    const isInside = across >= 0 && down >= 0 && across < cellsWide && down < cellsHigh;
    for (let channel = 0; channel < 3; channel++) {
      const exposed = exposure * (isInside ? scale[3 * (down * cellsWide + across) + channel] : frontLight);
      // Near enough to normal, deviation 1; 6,000 electrons at full scale.
      const deviate = Math.sqrt(3) * (random() + random() + random() + random() - 2);
      codes[3 * pixel + channel] = codeOf(exposed + deviate * Math.sqrt(exposed / 6000), curve);
    }
  }
  const camera = {
    make: 'Example',
    model,
    exposureS: exposure / 10,
    fNumber: 4,
    iso: 100,
    whiteBalance: 'manual' as const,
  };
  const facts = { widthPx, heightPx, format: 'jpeg', camera, exifSaysSrgb: true };
  const region = { column: 0, row: 0, width: widthPx, height: heightPx };
  return { decoded: drawDecoded(codes, widthPx, { region, facts }), corners };
}

/** A series of drawn photos measured and compared as `evendial compare` does it; the first may be the filament reference. */
export async function compareDrawn(
  trials: readonly DrawnPhoto[],
  reference: DrawnPhoto | null = null,
): Promise<Comparison & { readonly shown: readonly ShownWindow[] }> {
  const all = [...(reference ? [reference] : []), ...trials];
  const photos = all.map(drawnPhoto);
  const jobs = all.map(({ name, light }, i): MeasureJob => ({
    role: all[i] === reference ? 'reference' : 'trial',
    name,
    photo: { file: `${name}.jpg`, path: String(i), encoding: 'profile', encodingStated: false, exposure: {} },
    light: light.kind,
    windows: [
      {
        spec: {
          name: 'scale',
          shape: { kind: 'rectangle' },
          print: 'dark',
          leaveOut: [],
          paintedRed: [],
          paintedDark: [],
        },
        sizeMm: { widthMm, heightMm },
        corners: photos[i].corners,
        isShapeStated: true,
      },
    ],
  }));
  const decodePhoto = (path: string) => {
    const { decoded } = photos[Number(path)];
    return Promise.resolve({ ...decoded, facts: { ...decoded.facts, sha256: path.padStart(64, '0') } });
  };
  const request = { jobs, room: 'dark' as const, viewingDistanceMm: 500, isSeries: true };
  const { windows } = await measurePhotos(request, { decodePhoto, nowMs: () => 0 });
  const shown = windows.map((entry): ShownWindow => {
    if ('failed' in entry) throw new Error(`${entry.name}: ${entry.failed.error.message}`);
    return { role: entry.role, reading: entry.reading, facts: entry.facts, witness: null };
  });
  return { ...compareSeries(['scale'], shown, []), shown };
}
