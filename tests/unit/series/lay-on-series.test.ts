import { describe, expect, it } from 'vitest';
import type { LinearPhoto } from '../../../core/base/linear-photo';
import type { Corners } from '../../../core/base/points';
import type { LocatedWindow } from '../../../core/contract/measure';
import { cornersByPrint } from '../../../core/series/known-window';
import { layOnSeries, type LaidWindow, type WindowToLay } from '../../../core/series/lay-on-series';
import {
  barsOf,
  drawScale,
  heightMm,
  lights,
  movedCorners,
  placeError,
  poses,
  widthMm,
} from '../registration/drawn-scales';

const bars = barsOf(5);
/** What wires before the lamp cast: straight down the window, a quarter darker. */
const shadowsOf = (...at: number[]) => at.map((x) => ({ x, y: 0, wide: 1.1, high: heightMm, lets: 0.72 }));

function windowAt(corners: Corners): LocatedWindow {
  const shape = { kind: 'rectangle' } as const;
  const spec = { name: 'scale', shape, print: 'auto' as const, leaveOut: [], paintedRed: [], paintedDark: [] };
  return { spec, sizeMm: { widthMm, heightMm }, corners };
}

function prepare(linear: LinearPhoto, corners: Corners, more: Partial<WindowToLay> = {}): LaidWindow {
  const alone = { role: 'trial', known: null, printPhoto: null, second: null, isSeries: true } as const;
  return layOnSeries({ ...alone, window: windowAt(corners), linear, ...more });
}

const other = (linear: LinearPhoto, given: readonly Corners[]) => ({
  linear,
  placesOf: () => ({ given, searched: () => [] }),
});
/** Share of a column of mm that counts as print. */
function coveredAt(prepared: LaidWindow, xMm: number): number {
  const { covered } = prepared.carriedPrint!.mask;
  const column = Math.round(xMm * 10);
  let count = 0;
  for (let row = 0; row < covered.height; row++) count += covered.values[row * covered.width + column];
  return count / covered.height;
}

const reference = drawScale(poses[0], lights.even, bars);
const first = prepare(reference, poses[0], { role: 'reference' });

describe('a later photo of a series', () => {
  const trial = drawScale(poses[1], lights['one spot'], bars);

  it('[SE5] [SE6] is laid on the reference, and takes its print', () => {
    const corners = movedCorners(poses[1], 6, 3);
    const later = prepare(trial, corners, { known: first.known });
    expect(placeError(corners, poses[1])).toBeGreaterThan(0.3);
    expect(placeError(later.window.corners, poses[1])).toBeLessThan(0.05);
    expect(later.window.registrationMm).toBeLessThan(0.05);
    expect(later.carriedPrint).toMatchObject({ from: 'reference' });
    expect(later.carriedPrint?.mask).toBe(first.known?.print?.mask);
  });

  it('[SE5] of another window keeps its corners and finds its own print', () => {
    const later = prepare(drawScale(poses[1], lights.even, barsOf(9)), poses[1], { known: first.known });
    expect(later.window.corners).toBe(poses[1]);
    expect(later.window.notRegistered).toMatch(/same print/);
    expect(later.carriedPrint).toBeNull();
  });

  it('[RG6] without corners is found where the camera saw it before, and nowhere in another window', () => {
    const places = { given: [], searched: () => [] };
    const found = cornersByPrint(first.known!, trial, places);
    expect(placeError(poses[0], poses[1])).toBeGreaterThan(1);
    expect(placeError(found!, poses[1])).toBeLessThan(0.05);
    expect(cornersByPrint(first.known!, drawScale(poses[1], lights.even, barsOf(9)), places)).toBeNull();
  });
});

describe('print and shadows', () => {
  const shadowed = drawScale(poses[0], lights.even, [...bars, ...shadowsOf(17.2, 44.6)]);
  const elsewhere = drawScale(poses[1], lights['three spots'], [...bars, ...shadowsOf(29.3)]);

  it('[SE6] a trial of its own, with nothing to confirm its print, hands none on', () => {
    const alone = prepare(shadowed, poses[0]);
    expect(alone.carriedPrint).toBeNull();
    expect(alone.known).toMatchObject({ print: null });
  });

  it('[PM9] [SE6] a shadow that a second photo does not have is no print; what both have stays', () => {
    const confirmed = prepare(shadowed, poses[0], { second: other(elsewhere, [poses[1]]) });
    expect(confirmed.carriedPrint?.from).toBe('trials');
    expect(first.known).not.toBeNull();
    const truth: LaidWindow = { ...first, carriedPrint: first.known!.print };
    const alone = prepare(shadowed, poses[0], { role: 'reference' });
    const single: LaidWindow = { ...alone, carriedPrint: alone.known!.print };
    // Next to print a strip of the shadow, 0.3 mm and the widening, cannot be told from it.
    for (const x of [17.7, 45.1]) {
      expect(coveredAt(single, x)).toBeGreaterThan(0.95);
      expect(coveredAt(confirmed, x)).toBeLessThan(0.5 * coveredAt(single, x) + 0.5 * coveredAt(truth, x));
    }
    expect(coveredAt(confirmed, 29.8)).toBeLessThan(coveredAt(truth, 29.8) + 0.05);
    const [mask, truly] = [confirmed.carriedPrint!.mask.covered.values, truth.carriedPrint!.mask.covered.values];
    const lost = mask.filter((value, i) => !value && truly[i]).length / truly.filter(Boolean).length;
    expect(lost).toBeLessThan(0.03);
  });

  it('[SE6] a print photo shows the print under its own light; one of another window is not used', () => {
    const room = drawScale(poses[1], () => 0.3, bars);
    const found = prepare(shadowed, poses[0], {
      isSeries: false,
      printPhoto: { ...other(room, []), file: 'room.jpg' },
    });
    expect(found.carriedPrint?.from).toBe('printPhoto');
    expect(coveredAt(found, 45.1)).toBeLessThan(0.5);
    const wrong = drawScale(poses[1], () => 0.3, barsOf(9));
    const unused = prepare(shadowed, poses[0], { printPhoto: { ...other(wrong, []), file: 'wrong.jpg' } });
    expect(unused).toMatchObject({ carriedPrint: null, unusedPrintPhoto: 'wrong.jpg' });
  });
});
