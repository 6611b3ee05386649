import { describe, expect, it } from 'vitest';
import { srgbFromLinear } from '../../../core/colour/transfer';
import { prepareLive, straightenLive } from '../../../core/live/live-window';
import { pictureOf } from '../../../core/live/picture';
import { corners, drawPart, photo } from './draw-part';

const live = prepareLive({
  widthMm: 60,
  heightMm: 25,
  shape: { kind: 'rectangle' },
  leaveOut: [],
  photo,
  print: null,
  isFromGreen: false,
  viewingDistanceMm: 500,
});

describe('pictureOf', () => {
  it('[LV4] shows the straightened window in sRGB codes, at the cells a mm asked for', () => {
    const window = straightenLive(
      live,
      drawPart((x) => 0.1 + 0.01 * x),
      corners,
      5,
    );
    const { width, height, rgba } = pictureOf(window);
    expect([width, height, rgba.length]).toEqual([300, 125, 4 * 300 * 125]);
    const at = 60 * 300 + 150;
    const expected = [window.red, window.green, window.blue].map(({ values }) => 255 * srgbFromLinear(values[at]));
    for (let c = 0; c < 3; c++) expect(rgba[4 * at + c]).toBeWithin(expected[c], 1); // the table
    expect(rgba[4 * at + 3]).toBe(255);
  });

  it('[LV4] gain brightens, and what is beyond the scale stays at its end', () => {
    const window = straightenLive(
      live,
      drawPart(() => 0.2),
      corners,
      2,
    );
    expect(pictureOf(window, 2).rgba[1000 * 4]).toBeWithin(255 * srgbFromLinear(2 * window.red.values[1000]), 1);
    expect([...pictureOf(window, 100).rgba.slice(4000, 4004)]).toEqual([255, 255, 255, 255]);
  });

  it('[LV4] what the photo does not reach is transparent', () => {
    const part = drawPart(() => 0.2);
    const window = straightenLive(live, { ...part, region: { ...part.region, column: 300 } }, corners, 2);
    const { rgba } = pictureOf(window);
    expect([...rgba.slice(0, 4)]).toEqual([0, 0, 0, 0]);
    expect(rgba[4 * (25 * 120 + 100) + 3]).toBe(255);
  });
});
