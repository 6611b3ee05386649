import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Corners } from '../../../core/base/points';
import type { LocatedWindow } from '../../../core/contract/measure';
import { readSeries, requestOfSeries } from '../../../core/contract/series';
import { cornersBesideKnown, type FirstShown } from '../../../core/series/beside-known';
import { homographyFromCorners, photoPointOf } from '../../../core/window/homography';
import { cornerDistance } from '../../support/corner-distance';
import { measureAll } from '../../support/measured-samples';

const folder = 'samples/sets';

/** Corners of a rectangle on a panel of 200 x 100 mm, as a camera sees that panel. */
function seenBy(panelCorners: Corners, left: number, top: number, width: number, height: number): Corners {
  const view = homographyFromCorners(panelCorners, 200, 100);
  const places = [
    [left, top],
    [left + width, top],
    [left + width, top + height],
    [left, top + height],
  ] as const;
  return places.map(([xMm, yMm]) => photoPointOf(view, { xMm, yMm })) as unknown as Corners;
}

type Pair = readonly [number, number];

const panel = (...corners: readonly Pair[]): Corners =>
  corners.map(([column, row]) => ({ column, row })) as unknown as Corners;

describe('a window that a photo shows dark', () => {
  const before = panel([100, 80], [1500, 120], [1480, 800], [90, 770]);
  const after = panel([160, 60], [1430, 40], [1520, 860], [130, 790]);
  const first = (corners: Corners, widthMm: number, heightMm: number, photo: string): FirstShown => ({
    window: { corners, widthMm, heightMm } as FirstShown['window'],
    photo,
  });
  const dark = first(seenBy(before, 150, 20, 38, 38), 38, 38, 'both.jpg');
  const lit = { spec: { name: 'scale' }, corners: seenBy(after, 20, 40, 92, 18) } as LocatedWindow;

  it('[SE7] lies where the lit one beside it says, however the camera has moved', () => {
    const firsts = new Map([['scale', first(seenBy(before, 20, 40, 92, 18), 92, 18, 'both.jpg')]]);
    const found = cornersBesideKnown(dark, [lit], (name) => firsts.get(name));
    const truth = seenBy(after, 150, 20, 38, 38);
    found!.forEach(({ column, row }, i) => {
      expect(column).toBeCloseTo(truth[i].column, 6);
      expect(row).toBeCloseTo(truth[i].row, 6);
    });
  });

  it('[SE7] is not placed by a window that another photo showed first, nor by none', () => {
    const firsts = new Map([['scale', first(seenBy(before, 20, 40, 92, 18), 92, 18, 'other.jpg')]]);
    expect(cornersBesideKnown(dark, [lit], (name) => firsts.get(name))).toBeNull();
    expect(cornersBesideKnown(dark, [], () => undefined)).toBeNull();
  });

  it('[SE7] is placed in the photo of a panel of which one window is lit', async () => {
    const series = readSeries(readFileSync(`${folder}/panel.series.json`, 'utf8'), 'panel.series.json');
    const [both, alone] = series.trials!;
    const trials = [both, { ...alone, corners: undefined }];
    const request = requestOfSeries({ ...series, trials, reference: undefined }, (file) => path.resolve(folder, file));
    const readings = await measureAll(request);
    expect(readings).toHaveLength(4);
    for (const { outline, window } of readings.slice(2)) {
      expect(outline.cornersFrom).toBe('registration');
      // The script that drew the photos wrote the corners into the series.
      const truth = alone.corners![window] as readonly Pair[];
      // 0.3 mm of the meter's 38, as much as a lamp-off photo may lie aside: a scale of 18 mm reaches five heights to it.
      expect(cornerDistance(panel(...(outline.cornersPx as readonly Pair[])), truth)).toBeLessThan(0.3 / 38);
    }
  }, 180_000);
});
