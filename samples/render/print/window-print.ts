import type { PrintName } from '../window-scene';
import { textStrokes } from './glyphs';
import { arc, InkPlane, type Stroke } from './strokes';

/** What is printed on a window, in its millimetres. */
export interface PrintDrawing {
  readonly dark: readonly Stroke[];
  readonly red: readonly Stroke[];
  /** Left open in the ground of a black dial; without it the ground glows. */
  readonly lit?: readonly Stroke[];
}

const line = (width: number, ...points: [number, number][]): Stroke => ({ width, points });

/** The tuning scale of the Larkfield T-60, 92 x 18 mm. */
function t60(): PrintDrawing {
  const xOf = (mhz: number) => 8 + (mhz - 88) * 3.8;
  const baseline = 10.6;
  const dark: Stroke[] = [line(0.35, [xOf(88) - 2, baseline], [xOf(108) + 2, baseline])];
  for (let mhz = 88; mhz <= 108; mhz++) {
    const long = mhz % 4 === 0;
    dark.push(line(long ? 0.5 : 0.32, [xOf(mhz), baseline], [xOf(mhz), baseline - (long ? 2.1 : 1.2)]));
    if (mhz < 108) dark.push(line(0.25, [xOf(mhz + 0.5), baseline], [xOf(mhz + 0.5), baseline - 0.7]));
  }
  for (let mhz = 88; mhz <= 108; mhz += 4) dark.push(...textStrokes(String(mhz), [xOf(mhz), 5], 3.1, 0.46));
  for (let mark = 0; mark <= 8; mark++) {
    const x = xOf(88 + 2 * mark);
    dark.push(line(0.28, [x, 13.1], [x, mark % 5 === 0 ? 14.7 : 13.9]));
  }
  dark.push(line(0.28, [xOf(88), 13.1], [xOf(104.6), 13.1]), ...textStrokes('MHz', [4.7, 14.9], 1.9, 0.34));
  const ring = (x: number) => ({ width: 0.95, points: arc([x, 14.2], [1.75, 1.75], 0, 360) });
  const red = [ring(78.4), ring(80.7), line(1.05, [xOf(98.3), 2.2], [xOf(98.3), 15.8])];
  return { dark, red };
}

/** The level meter of the Larkfield M-4, round, 38 mm; its lower part lies behind a cover. */
function m4(): PrintDrawing {
  const pivot: [number, number] = [19, 31];
  const radius = 19;
  const angleOf = (share: number) => -90 + (share - 0.5) * 82;
  const polar = (share: number, r: number): [number, number] => arc(pivot, [r, r], angleOf(share), angleOf(share))[0];
  const zero = 0.72;
  const dark: Stroke[] = [{ width: 0.4, points: arc(pivot, [radius, radius], angleOf(0), angleOf(zero)) }];
  const figures: [string, number][] = [
    ['20', 0],
    ['10', 0.26],
    ['5', 0.5],
    ['0', zero],
  ];
  for (const [text, share] of figures) {
    dark.push(line(0.55, polar(share, radius), polar(share, radius + 1.9)));
    dark.push(...textStrokes(text, polar(share, radius + 3.9), 2.3, 0.42, angleOf(share) + 90));
  }
  for (let i = 1; i < 15; i++) dark.push(line(0.3, polar((i * zero) / 15, radius), polar((i * zero) / 15, radius + 1)));
  dark.push(...textStrokes('dB', [24, 20.6], 2.2, 0.42), line(0.5, polar(0.4, 4), polar(0.4, radius + 1.2)));
  const red: Stroke[] = [
    { width: 1.2, points: arc(pivot, [radius + 0.4, radius + 0.4], angleOf(zero + 0.035), angleOf(1)) },
    line(0.8, polar(0.86, radius), polar(0.86, radius + 1.9)),
    line(0.8, polar(1, radius), polar(1, radius + 1.9)),
    ...textStrokes('3', polar(0.87, radius + 3.9), 2.3, 0.75, angleOf(0.87) + 90),
  ];
  return { dark, red };
}

/** A black dial for the T-60: figures, marks and lines left open in the lacquer. */
function t60Black(): PrintDrawing {
  const xOf = (mhz: number) => 8 + (mhz - 88) * 3.8;
  const lit: Stroke[] = [line(0.7, [xOf(88) - 2, 11.4], [xOf(108) + 2, 11.4])];
  for (let mhz = 88; mhz <= 108; mhz += 2) lit.push(line(0.7, [xOf(mhz), 11.4], [xOf(mhz), mhz % 4 ? 9.7 : 8.9]));
  for (let mhz = 88; mhz <= 108; mhz += 4) lit.push(...textStrokes(String(mhz), [xOf(mhz), 5], 3.6, 0.75));
  for (let mark = 0; mark <= 10; mark += 2)
    lit.push(...textStrokes(String(mark), [xOf(88 + 2 * mark), 14.6], 2.4, 0.65));
  return { dark: [], red: [], lit };
}

/** A tuning meter of 16 x 7 mm: marks and figures stand close. */
function tuning(): PrintDrawing {
  const dark: Stroke[] = [line(0.3, [1.8, 4.1], [14.2, 4.1])];
  for (let mark = 0; mark <= 8; mark++)
    dark.push(line(0.3, [2 + 1.5 * mark, 4.1], [2 + 1.5 * mark, mark % 2 ? 3.4 : 2.9]));
  for (let mark = 0; mark <= 4; mark++)
    dark.push(...textStrokes(String(Math.abs(2 * mark - 4)), [2 + 3 * mark, 1.9], 1.4, 0.26));
  dark.push(...textStrokes('dB', [8, 5.4], 1.5, 0.28));
  return { dark, red: [] };
}

/** A window of 12 x 5 mm with one word of bold letters and a line below. */
function band(): PrintDrawing {
  const dark = [...textStrokes('M8Hz', [6, 2.2], 2.2, 0.4), line(0.35, [1.5, 4.1], [10.5, 4.1])];
  return { dark, red: [] };
}

const drawings: Readonly<Record<PrintName, () => PrintDrawing>> = {
  'larkfield-t60': t60,
  'larkfield-m4': m4,
  'larkfield-t60-black': t60Black,
  'larkfield-t60-tuning': tuning,
  'larkfield-t60-band': band,
  none: () => ({ dark: [], red: [] }),
};

/** What is printed on a window. */
export function printDrawing(print: PrintName): PrintDrawing {
  return drawings[print]();
}

/** Whether a window shows lit figures on black. */
export function isBlackDial(print: PrintName): boolean {
  return printDrawing(print).lit !== undefined;
}

/** Ink shares of a window's print; red lies over dark. `lit` is what a black ground leaves open; null where the ground glows. */
export interface PrintPlanes {
  readonly dark: InkPlane;
  readonly red: InkPlane;
  readonly lit: InkPlane | null;
}

export function printPlanes(print: PrintName, widthMm: number, heightMm: number, density: number): PrintPlanes {
  const drawing = printDrawing(print);
  const dark = new InkPlane(widthMm, heightMm, density);
  const red = new InkPlane(widthMm, heightMm, density);
  const lit = drawing.lit ? new InkPlane(widthMm, heightMm, density) : null;
  drawing.dark.forEach((stroke) => dark.draw(stroke));
  drawing.red.forEach((stroke) => red.draw(stroke));
  drawing.lit?.forEach((stroke) => lit?.draw(stroke));
  return { dark, red, lit };
}
