import { describe, expect, it } from 'vitest';
import { createMask, createPlane, type Mask } from '../../../../core/base/plane';
import { findReflections } from '../../../../core/reading/checks/reflection';
import { topHat } from '../../../../core/reading/checks/top-hat';
import { findPrint } from '../../../../core/window/print-mask';
import { outlineMask } from '../../../../core/window/outline';
import type { RectifiedWindow } from '../../../../core/window/rectified';
import { drawWindow, scalePrint, spotLight } from '../../window/draw-window';

interface Patch {
  readonly xMm: number;
  readonly yMm: number;
  readonly wideMm: number;
  readonly highMm: number;
  /** Light that it adds to red, green and blue. */
  readonly adds: readonly [number, number, number];
  readonly softMm: number;
}
const streak: Patch = { xMm: 36, yMm: 19.5, wideMm: 1.4, highMm: 3, adds: [0.11, 0.11, 0.11], softMm: 0.08 };

/** A lit scale of 60 x 25 mm with its own print, and a patch of light on top of it. */
function drawPane(patch: Patch | null, light = spotLight(2, 9, 22, 13)): RectifiedWindow {
  const { dark, red } = scalePrint();
  const window = drawWindow({ widthMm: 60, heightMm: 25, light, strokes: [...dark, ...red], noise: 0.01 });
  if (!patch) return window;
  const planes = [window.red, window.green, window.blue].map((plane, channel) => {
    const values = plane.values.map((value, i) => {
      const row = Math.floor(i / plane.width);
      const [dx, dy] = [(i - row * plane.width + 0.5) / 10 - patch.xMm, (row + 0.5) / 10 - patch.yMm];
      const inside = Math.min(patch.wideMm / 2 - Math.abs(dx), patch.highMm / 2 - Math.abs(dy));
      return value + patch.adds[channel] / (1 + Math.exp(-inside / patch.softMm));
    });
    return { ...plane, values };
  });
  return { ...window, red: planes[0], green: planes[1], blue: planes[2] };
}

function glowOf(window: RectifiedWindow): Mask {
  const within = outlineMask({ kind: 'rectangle' }, 60, 25, 10, 1, 'centre');
  const { covered } = findPrint(window, within);
  return { ...within, values: within.values.map((value, i) => (value && !covered.values[i] ? 1 : 0)) };
}
const found = (window: RectifiedWindow) => findReflections(window, glowOf(window));

describe('findReflections', () => {
  it('[CK5] a streak of room light in the pane, with its place and strength', () => {
    const [first, ...others] = found(drawPane(streak));
    expect(others).toEqual([]);
    expect(first.atMm.xMm).toBeWithin(streak.xMm, 0.3);
    expect(first.atMm.yMm).toBeWithin(streak.yMm, 0.6);
    // Its rim is taken for print's surroundings here and there.
    expect(first.areaMm2).toBeWithin(streak.wideMm * streak.highMm, 1.8);
  });

  it.each<[string, RectifiedWindow]>([
    ['a scale without any', drawPane(null)],
    ['the hot spots of bare lamps', drawPane(null, spotLight(6, 3, 33, 13))],
    ['a hot spot so small that the lamp nearly touches the scale', drawPane(null, spotLight(4, 1.2, 33, 19))],
    ["a scratch that lets through the lamps' own light", drawPane({ ...streak, adds: [0.2, 0.11, 0.03] })],
    ['a soft sheen of room light', drawPane({ ...streak, wideMm: 4, softMm: 1.6 })],
    ['a faint one', drawPane({ ...streak, adds: [0.012, 0.012, 0.012] })],
    ['a speck of 0.1 mm^2', drawPane({ ...streak, wideMm: 0.3, highMm: 0.35 })],
    ['a cooler patch that is no brighter', drawPane({ ...streak, adds: [-0.03, 0, 0.1] })],
  ])('[CK5] none in %s', (_, window) => {
    expect(found(window)).toEqual([]);
  });

  it('[CK5] a clipped patch is not called a reflection: a clipped hot spot looks the same', () => {
    const window = drawPane(streak);
    const clipped = createMask(600, 250);
    clipped.values[195 * 600 + 360] = 1;
    expect(found({ ...window, greenClipped: clipped })).toEqual([]);
    const elsewhere = createMask(600, 250);
    elsewhere.values[195 * 600 + 200] = 1;
    expect(found({ ...window, greenClipped: elsewhere })).toHaveLength(1);
  });

  it('[CK5] alters nothing, and an empty glow has none', () => {
    const window = drawPane(streak);
    const glow = glowOf(window);
    const before = [window.red.values.slice(), glow.values.slice()];
    findReflections(window, glow);
    expect([window.red.values, glow.values]).toEqual(before);
    expect(findReflections(window, createMask(600, 250))).toEqual([]);
  });
});

describe('topHat', () => {
  it('[CK5] leaves what the disk does not fit into, and takes slopes and wide hills away', () => {
    const plane = createPlane(60, 40);
    for (let i = 0; i < plane.values.length; i++) {
      const [column, row] = [i % 60, Math.floor(i / 60)];
      plane.values[i] = 0.01 * column;
      if (column >= 40 && column < 44 && row >= 10 && row < 30) plane.values[i] += 0.7;
      if (column >= 5 && column < 27 && row >= 5 && row < 35) plane.values[i] += 0.9;
    }
    const above = topHat(plane, createMask(60, 40, 1), 1, 10);
    // The slope under the disk, 10 cells of 0.01, is all that comes on top.
    expect(above.values[20 * 60 + 42]).toBeWithin(0.7, 0.11);
    expect(above.values[20 * 60 + 16]).toBeLessThan(0.11);
    expect(above.values[20 * 60 + 55]).toBeLessThan(0.11);
  });
});
