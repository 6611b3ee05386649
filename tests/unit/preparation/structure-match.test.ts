import { describe, expect, it } from 'vitest';
import { createMask, type Plane } from '../../../core/base/plane';
import { matchStructure } from '../../../core/preparation/structure-match';
import { luminancePlane } from '../../../core/preparation/luminance-plane';
import { rectifyWindow } from '../../../core/window/rectify';
import { type DrawnScale, drawScale, place } from './draw-scale';

const cellsPerMm = 5;
const seen = (scale: DrawnScale): Plane =>
  luminancePlane(rectifyWindow(drawScale(scale).linear, place.homography, place.widthMm, place.heightMm, cellsPerMm));
const even = seen({ light: () => 0.5, print: 0.05 });
const all = createMask(even.width, even.height, 1);
const match = (second: Plane) => matchStructure(even, second, all, cellsPerMm);

describe('matchStructure', () => {
  it.each([0, 0.1, 0.3, -0.5])('[CP2] finds a shift of %f mm under another light', (movedMm) => {
    const found = match(seen({ light: (xMm) => 0.05 + 0.2 * Math.exp(-xMm / 8), print: 0.1, movedMm }));
    expect(found?.correlation).toBeGreaterThan(0.9);
    // A fifth of a cell.
    expect(found?.shiftMm.xMm).toBeWithin(movedMm, 0.04);
    expect(found?.shiftMm.yMm).toBeWithin(0, 0.04);
  });

  it('[CP2] does not feel how much light there is', () => {
    const [once, fourfold] = [0.1, 0.4].map((light) => match(seen({ light: () => light, print: 0.1 })));
    expect(fourfold?.correlation).toBeWithin(once!.correlation, 1e-4);
  });

  it('[CP2] other print does not correlate', () => {
    const mirrored = { ...even, values: even.values.map((_, i) => even.values[even.values.length - 1 - i]) };
    expect(match(mirrored)?.correlation).toBeLessThan(0.9);
  });

  it('[CP2] says null where nothing is printed', () => {
    const plain = seen({ light: (xMm) => 0.3 + 0.01 * xMm, print: 1, noise: 0.01 });
    expect(matchStructure(plain, even, all, cellsPerMm)).toBeNull();
  });
});
