import type { WindowPoint } from '../base/points';
import type { WindowAsked } from '../contract/bench';
import type { OutlineShape } from '../contract/outline';
import type { UnitWindow } from '../contract/unit-record';
import { askedWrongly } from './book-errors';

type Patches = readonly (readonly WindowPoint[])[];
type Pair = [number, number];

const pointsOf = (pairs: readonly Pair[]): WindowPoint[] => pairs.map(([xMm, yMm]) => ({ xMm, yMm }));
const pairsOf = (points: readonly WindowPoint[]): Pair[] => points.map(({ xMm, yMm }) => [xMm, yMm]);
const patchesOf = (patches: readonly { readonly pointsMm: readonly Pair[] }[] | undefined): WindowPoint[][] =>
  (patches ?? []).map(({ pointsMm }) => pointsOf(pointsMm));
const keptPatches = (patches: Patches): { pointsMm: Pair[] }[] =>
  patches.map((points) => ({ pointsMm: pairsOf(points) }));

function shapeOf(outline: UnitWindow['outline']): OutlineShape {
  if (outline?.kind === 'polygon') return { kind: 'polygon', pointsMm: pointsOf(outline.pointsMm) };
  if (outline?.kind === 'ellipse' && outline.cutMm) return { kind: 'ellipse', cutMm: pointsOf(outline.cutMm) };
  return { kind: outline?.kind ?? 'rectangle' };
}

function outlineOf(shape: OutlineShape): UnitWindow['outline'] {
  if (shape.kind === 'polygon') return { kind: 'polygon', pointsMm: pairsOf(shape.pointsMm) };
  if (shape.kind === 'ellipse' && shape.cutMm) return { kind: 'ellipse', cutMm: pairsOf(shape.cutMm) };
  return { kind: shape.kind };
}

/** A window of a record as the bench is asked about it. @param cornersPx  of the photo; null: to be found @rule BE18 */
export function windowAsked(window: UnitWindow, cornersPx: WindowAsked['cornersPx']): WindowAsked {
  const { widthMm, heightMm, outline, print, leaveOut, painted } = window;
  return {
    cornersPx,
    sizeMm: { widthMm, heightMm },
    shape: shapeOf(outline),
    print: print ?? 'auto',
    leaveOut: patchesOf(leaveOut),
    paintedRed: patchesOf(painted?.red),
    paintedDark: patchesOf(painted?.dark),
  };
}

type Sized = WindowAsked & { readonly sizeMm: NonNullable<WindowAsked['sizeMm']> };

/**
 * A window that goes into a record has been measured with its own size: figures of an assumed one would stand there as if
 * they were true.
 *
 * @throws AppError WINDOW_SIZE_MISSING
 * @rule BE17
 */
export function assertSized(name: string, asked: WindowAsked): asserts asked is Sized {
  if (asked.sizeMm !== null) return;
  const message = `the window ${JSON.stringify(name)} has no size yet`;
  throw askedWrongly('WINDOW_SIZE_MISSING', message, 'Enter its width and height in mm, from a caliper, first.');
}

/**
 * The window of a record that a photo of the bench was measured as.
 *
 * @param found  the kind of outline that the reading has, where the user has stated no shape
 * @throws AppError WINDOW_SIZE_MISSING
 * @rule BE17
 */
export function windowToKeep(name: string, asked: WindowAsked, found: 'rectangle' | 'ellipse' | 'polygon'): UnitWindow {
  assertSized(name, asked);
  const { sizeMm, shape, print, leaveOut, paintedRed, paintedDark } = asked;
  const outline = shape ? outlineOf(shape) : { kind: found === 'ellipse' ? found : ('rectangle' as const) };
  const [red, dark] = [keptPatches(paintedRed), keptPatches(paintedDark)];
  const painted = { ...(red.length > 0 ? { red } : {}), ...(dark.length > 0 ? { dark } : {}) };
  return {
    name,
    ...sizeMm,
    ...(outline?.kind === 'rectangle' ? {} : { outline }),
    ...(print === 'auto' ? {} : { print }),
    ...(leaveOut.length > 0 ? { leaveOut: keptPatches(leaveOut) } : {}),
    ...(Object.keys(painted).length > 0 ? { painted } : {}),
  };
}
