import type { UnitLamp, UnitTrial, UnitWindow } from '../contract/unit-record';
import {
  afterColour,
  black,
  faint,
  quiet,
  rectangle,
  thinLine,
  type DrawnItem,
  type DrawnPoint,
  type Drawing,
  type Stroke,
} from './drawing';
import { scaleText } from './picture-layout';
import { rulerBelow, rulerBeside } from './rulers';
import { sheetWidthMm } from './sheet-content';

type PlacedLamp = UnitLamp & { readonly positionMm: readonly [number, number, number] };

/** The lamps of a trial whose place is recorded. */
export function placedLamps(trial: UnitTrial | undefined): PlacedLamp[] {
  return (trial?.lamps ?? []).filter((lamp): lamp is PlacedLamp => lamp.positionMm !== undefined);
}

const outlineStroke: Stroke = { colour: black, widthMm: 0.35 };

function outlineItems({ widthMm, heightMm, outline }: UnitWindow, at: (point: DrawnPoint) => DrawnPoint): DrawnItem[] {
  const [left, top] = at([0, 0]);
  const [right, bottom] = at([widthMm, heightMm]);
  const box: DrawnItem = {
    kind: 'shape',
    points: rectangle(left, top, right - left, bottom - top),
    stroke: outline === undefined || outline.kind === 'rectangle' ? outlineStroke : { colour: faint, widthMm: 0.15 },
  };
  if (outline === undefined || outline.kind === 'rectangle') return [box];
  if (outline.kind === 'polygon') {
    return [box, { kind: 'shape', points: outline.pointsMm.map(at), stroke: outlineStroke }];
  }
  const centre: DrawnPoint = [(left + right) / 2, (top + bottom) / 2];
  const round: DrawnItem = {
    kind: 'ellipse',
    centre,
    radii: [(right - left) / 2, (bottom - top) / 2],
    stroke: outlineStroke,
  };
  const cut: Stroke = { colour: quiet, widthMm: 0.25, dashMm: [1, 1] };
  return outline.cutMm ? [box, round, { kind: 'shape', points: outline.cutMm.map(at), stroke: cut }] : [box, round];
}

/** A cross in a ring with its number beside it. */
function lampMark([x, y]: DrawnPoint, number: number): DrawnItem[] {
  const stroke: Stroke = { colour: afterColour, widthMm: 0.35 };
  return [
    { kind: 'ellipse', centre: [x, y], radii: [1.6, 1.6], fill: [255, 255, 255], stroke },
    { kind: 'line', points: [[x - 2.4, y], [x + 2.4, y]], stroke }, // prettier-ignore
    { kind: 'line', points: [[x, y - 2.4], [x, y + 2.4]], stroke }, // prettier-ignore
    { kind: 'text', at: [x + 2.2, y - 1.7], text: String(number), sizePt: 8.5, strong: true, colour: afterColour },
  ];
}

const leftMm = 18;
const gapMm = 6;
const mostHeightMm = 90;

/**
 * Lamp positions on the window's outline as one reads it, and beneath it seen from above, how far behind the scale; both
 * to one scale with rulers in mm. Lamps beside the window are drawn where they are.
 *
 * @returns null when no lamp's place is recorded
 * @rule RS6
 */
export function lampDrawing(window: UnitWindow, trial: UnitTrial | undefined): Drawing | null {
  const lamps = placedLamps(trial);
  if (lamps.length === 0) return null;
  const of = (axis: 0 | 1 | 2): number[] => lamps.map(({ positionMm }) => positionMm[axis]);
  const [fromX, toX] = [Math.min(0, ...of(0)), Math.max(window.widthMm, ...of(0))];
  const [fromY, toY] = [Math.min(0, ...of(1)), Math.max(window.heightMm, ...of(1))];
  const [fromZ, toZ] = [Math.min(0, ...of(2)), Math.max(4, ...of(2)) + 2];
  const fits = (sheetWidthMm - 2 * leftMm) / (toX - fromX);
  const fitsDown = (mostHeightMm - gapMm) / (toY - fromY + toZ - fromZ);
  const scale = Math.max(0.02, Math.floor(20 * Math.min(2, fits, fitsDown)) / 20);
  const left = (sheetWidthMm - (toX - fromX) * scale) / 2;
  const top = 6;
  const front = ([x, y]: DrawnPoint): DrawnPoint => [left + (x - fromX) * scale, top + (y - fromY) * scale];
  const topOfPlan = top + (toY - fromY) * scale + gapMm + 4;
  const above = ([x, z]: DrawnPoint): DrawnPoint => [left + (x - fromX) * scale, topOfPlan + (z - fromZ) * scale];
  const bottom = topOfPlan + (toZ - fromZ) * scale;
  const label = (text: string, y: number): DrawnItem => ({
    kind: 'text',
    at: [left, y],
    text,
    sizePt: 8,
    colour: quiet,
  });
  return {
    widthMm: sheetWidthMm,
    heightMm: bottom + 8,
    title: `Lamp positions of ${window.name}, ${scaleText(scale)}`,
    items: [
      label(`As one reads it, drawn ${scaleText(scale)}`, top - 2.4),
      ...outlineItems(window, front),
      ...rulerBeside([left, top], toY - fromY, scale, fromY),
      ...lamps.flatMap(({ positionMm: [x, y] }, i) => lampMark(front([x, y]), i + 1)),
      label('From above: the scale at 0, depth behind it downwards', topOfPlan - 2.4),
      { kind: 'line', points: [above([0, 0]), above([window.widthMm, 0])], stroke: outlineStroke },
      ...rulerBeside([left, topOfPlan], toZ - fromZ, scale, fromZ),
      ...lamps.flatMap(({ positionMm: [x, , z] }, i) => lampMark(above([x, z]), i + 1)),
      { kind: 'line', points: [[left, bottom + 0.4], [left + (toX - fromX) * scale, bottom + 0.4]], stroke: thinLine }, // prettier-ignore
      ...rulerBelow([left, bottom], toX - fromX, scale, fromX),
    ],
  };
}
