import type { Plane } from '../base/plane';
import { contourLevels, layerTransmissions } from '../advice/shade/contour-steps';
import { halftoneDots } from '../advice/shade/halftone';
import { levelLines } from '../advice/shade/level-lines';
import type { Rgb } from '../display/colour-scale';
import { rectangle, thinLine, type DrawnItem, type DrawnPoint, type Drawing, type Stroke } from './drawing';

export interface ShadeSheetInput {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly transmission: Plane;
  readonly pxPerMm: number;
  /** Distance of the dots, mm; null: contour lines. */
  readonly pitchMm: number | null;
  /** The ink lies on the side that is turned to the lamp. */
  readonly isMirrored: boolean;
  readonly title: string;
  /** Lines under the title. */
  readonly facts: readonly string[];
  readonly cautions: readonly string[];
}

/** A page to be printed at 100 per cent, and where on it the window lies. */
export interface ShadeSheet {
  readonly drawing: Drawing;
  /** Of the window's top-left corner, mm. */
  readonly windowAt: DrawnPoint;
}

/** Pure black, which a printer does not make of dots of its own. */
const ink: Rgb = [0, 0, 0];
const penLine: Stroke = { colour: ink, widthMm: 0.15 };
const [marginMm, topMm, belowMm] = [15, 40, 92] as const;
const armMm = 6;
const patchMm = 12;
const stripTransmissions = [0.8, 0.6, 0.4, 0.2, 0.1, 0.03] as const;

/** A4 upright or lying, else as large as the window asks for. */
function pageFor(widthMm: number, heightMm: number): DrawnPoint {
  const needed = [widthMm + 2 * marginMm, topMm + heightMm + belowMm];
  const pages: DrawnPoint[] = [[210, 297], [297, 210]]; // prettier-ignore
  const fits = pages.find(([wide, high]) => needed[0] <= wide && needed[1] <= high);
  return fits ?? [Math.max(210, needed[0]), Math.max(297, needed[1])];
}

const line = (from: DrawnPoint, to: DrawnPoint, stroke = penLine): DrawnItem => ({ kind: 'line', points: [from, to], stroke }); // prettier-ignore
const text = (at: DrawnPoint, words: string, sizePt = 8, strong = false): DrawnItem => ({ kind: 'text', at, text: words, sizePt, strong }); // prettier-ignore

function dotsOf(
  plane: Plane,
  pxPerMm: number,
  size: { widthMm: number; heightMm: number },
  pitchMm: number,
  place: (p: DrawnPoint) => DrawnPoint,
): DrawnItem[] {
  return halftoneDots(plane, pxPerMm, size, pitchMm).map(({ xMm, yMm, sideMm }) => ({
    kind: 'shape',
    points: rectangle(xMm, yMm, sideMm, sideMm).map(place),
    fill: ink,
  }));
}

/** The shade itself, each place of the window where `place` puts it. */
function artwork(
  { transmission, pxPerMm, pitchMm, widthMm, heightMm }: ShadeSheetInput,
  place: (p: DrawnPoint) => DrawnPoint,
): DrawnItem[] {
  if (pitchMm !== null) return dotsOf(transmission, pxPerMm, { widthMm, heightMm }, pitchMm, place);
  return contourLevels.flatMap((level) =>
    levelLines(transmission, pxPerMm, level).map(([from, to]) => line(place(from), place(to))),
  );
}

/** Crosses whose arms meet in the window's corners, outside of it. */
function cornerMarks([x, y]: DrawnPoint, widthMm: number, heightMm: number): DrawnItem[] {
  return [-1, 1].flatMap((sideX) =>
    [-1, 1].flatMap((sideY) => {
      const corner: DrawnPoint = [x + (sideX > 0 ? widthMm : 0), y + (sideY > 0 ? heightMm : 0)];
      return [
        line(corner, [corner[0] + sideX * armMm, corner[1]], thinLine),
        line(corner, [corner[0], corner[1] + sideY * armMm], thinLine),
      ];
    }),
  );
}

function ruler([x, y]: DrawnPoint): DrawnItem[] {
  const ticks = Array.from({ length: 21 }, (_, i) =>
    line([x + 5 * i, y], [x + 5 * i, y + (i % 2 ? 2 : 3.5)], thinLine),
  );
  return [line([x, y], [x + 100, y], thinLine), ...ticks, text([x, y - 1.5], '100 mm')];
}

/** Patches that show what printer or pen lets through. */
function strip([x, y]: DrawnPoint, pitchMm: number | null): DrawnItem[] {
  const outline = (i: number): DrawnItem => ({ kind: 'shape', points: rectangle(x + 1.5 * patchMm * i, y, patchMm, patchMm), stroke: penLine }); // prettier-ignore
  const label = (i: number, words: string): DrawnItem => text([x + 1.5 * patchMm * i, y + patchMm + 4], words);
  if (pitchMm === null) {
    return layerTransmissions.flatMap((value, i) => [outline(i), label(i, `${i + 1} x: ${Math.round(100 * value)} %`)]);
  }
  return stripTransmissions.flatMap((value, i) => {
    const plane = { width: 2, height: 2, values: new Float32Array(4).fill(value) };
    const place = ([px, py]: DrawnPoint): DrawnPoint => [x + 1.5 * patchMm * i + px, y + py];
    const size = { widthMm: patchMm, heightMm: patchMm };
    return [...dotsOf(plane, 2 / patchMm, size, pitchMm, place), outline(i), label(i, `${Math.round(100 * value)} %`)];
  });
}

/**
 * The page of a shade, 1:1: halftone or contour lines inside the window's corner marks, a ruler of 100 mm, a strip of patches, and
 * what to heed. Mirrored, the window is seen from behind.
 *
 * @rule AV8
 */
export function shadeSheet(input: ShadeSheetInput): ShadeSheet {
  const { widthMm, heightMm, isMirrored, pitchMm, title } = input;
  const [pageWide, pageHigh] = pageFor(widthMm, heightMm);
  const windowAt: DrawnPoint = [(pageWide - widthMm) / 2, topMm];
  const place = ([x, y]: DrawnPoint): DrawnPoint => [windowAt[0] + (isMirrored ? widthMm - x : x), windowAt[1] + y];
  const below = topMm + heightMm + armMm;
  const side = isMirrored ? 'mirrored: the window as seen from behind' : 'the window as one reads it';
  const items: DrawnItem[] = [
    text([marginMm, 16], title, 13, true),
    ...input.facts.map((words, i) => text([marginMm, 22 + 4.2 * i], words)),
    ...artwork(input, place),
    ...cornerMarks(windowAt, widthMm, heightMm),
    text([marginMm, below + 4], `${widthMm} x ${heightMm} mm, ${side}; the arms meet in the corners of the window`),
    ...ruler([marginMm, below + 13]),
    ...strip([marginMm, below + 24], pitchMm),
    ...input.cautions.map((words, i) => text([marginMm, below + 48 + 4.2 * i], words)),
  ];
  return { drawing: { widthMm: pageWide, heightMm: pageHigh, title, items }, windowAt };
}
