import type { ScaleTick } from '../display/panels';
import type { Rgb } from '../display/colour-scale';
import { quiet, rectangle, thinLine, type DrawnItem, type DrawnPoint, type Stroke } from './drawing';
import { sheetWidthMm } from './sheet-content';

const tick: Stroke = { colour: quiet, widthMm: 0.15 };
const labelPt = 7;

/** The least of the usual steps whose labels stand far enough apart. */
function stepFor(scale: number, leastMm: number): number {
  return [1, 2, 5, 10, 20, 50, 100, 200, 500].find((step) => step * scale >= leastMm) ?? 1000;
}

/** A ruler in window mm under a picture. @param at its left end @param scale paper over window */
export function rulerBelow(at: DrawnPoint, windowMm: number, scale: number, fromMm = 0): DrawnItem[] {
  const labelled = stepFor(scale, 13);
  const fine = stepFor(scale, 1.2);
  const items: DrawnItem[] = [];
  for (let mm = Math.ceil(fromMm / fine) * fine; mm <= fromMm + windowMm + 1e-9; mm += fine) {
    const x = at[0] + (mm - fromMm) * scale;
    const isLabelled = mm % labelled === 0;
    const length = isLabelled ? 1.8 : mm % (labelled / 2) === 0 ? 1.3 : 0.8;
    items.push({ kind: 'line', points: [[x, at[1] + 0.6], [x, at[1] + 0.6 + length]], stroke: tick }); // prettier-ignore
    if (!isLabelled) continue;
    const text = mm === 0 ? '0 mm' : String(mm).replace('-', '−');
    items.push({ kind: 'text', at: [x, at[1] + 5.4], text, sizePt: labelPt, align: 'centre', colour: quiet });
  }
  return items;
}

/** A ruler in window mm at the left of a picture. @param at its upper end */
export function rulerBeside(at: DrawnPoint, windowMm: number, scale: number, fromMm = 0): DrawnItem[] {
  const labelled = stepFor(scale, 8);
  const items: DrawnItem[] = [];
  for (let mm = Math.ceil(fromMm / labelled) * labelled; mm <= fromMm + windowMm + 1e-9; mm += labelled) {
    const y = at[1] + (mm - fromMm) * scale;
    items.push({ kind: 'line', points: [[at[0] - 2.4, y], [at[0] - 0.6, y]], stroke: tick }); // prettier-ignore
    const text = String(mm).replace('-', '−');
    items.push({ kind: 'text', at: [at[0] - 3, y + 0.9], text, sizePt: labelPt, align: 'right', colour: quiet });
  }
  return items;
}

const barSteps = 96;
const barHeightMm = 3.2;
export const scaleBarMm = 10;

/** The colours of a map with their values, as wide as the sheet's drawings: one bar for all maps above it. */
export function scaleBar(topMm: number, colourAt: (share: number) => Rgb, ticks: readonly ScaleTick[]): DrawnItem[] {
  const [left, width] = [12, sheetWidthMm - 24];
  const cells = Array.from({ length: barSteps }, (_, i): DrawnItem => {
    const [from, to] = [(i / barSteps) * width, ((i + 1) / barSteps) * width];
    const overlap = i + 1 < barSteps ? 0.2 : 0;
    const points = rectangle(left + from, topMm, to - from + overlap, barHeightMm);
    return { kind: 'shape', points, fill: colourAt((i + 0.5) / barSteps) };
  });
  const frame: DrawnItem = { kind: 'shape', points: rectangle(left, topMm, width, barHeightMm), stroke: thinLine };
  const marks = ticks.flatMap(({ share, label }): DrawnItem[] => {
    const x = left + share * width;
    return [
      { kind: 'line', points: [[x, topMm + barHeightMm], [x, topMm + barHeightMm + 1]], stroke: thinLine }, // prettier-ignore
      { kind: 'text', at: [x, topMm + barHeightMm + 4.2], text: label, sizePt: labelPt, align: 'centre' },
    ];
  });
  return [...cells, frame, ...marks];
}
