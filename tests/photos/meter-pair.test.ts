import { existsSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { compareSeries } from '../../core/compare/compare-series';
import type { ShownWindow } from '../../core/compare/find-matches';
import type { Match } from '../../core/contract/comparison';
import type { MeasuredWindow } from '../../core/contract/measure';
import { readSeries, requestOfSeries } from '../../core/contract/series';
import { measurePhotos } from '../../core/engine';
import { createDecoder } from '../../core/node/decode-process';
import { knownPhotos, photosAbsent, photosFolder, whySkipped } from './shared-photos';

/*
 * Two round meters beside each other, lit by filament bulbs, on a table in a lit room: the glow is brightest low in the middle,
 * black figures and scale line left of 0, red ones right of it (0, 3, 5, a plus). The other photo shows them with the bulbs off,
 * taken 20 hours before on another table from farther above: it can be no lamp-off photo.
 */
const lit = 'backlit/vu_bulb_lit.jpg';
const off = 'backlit/vu_bulb_off.jpg';
const pxPerMm = 10;

/** A part of a face that was marked by eye, as a polygon inside the box around it. */
function windowOf(name: string, marked: readonly (readonly [number, number])[]) {
  const [xs, ys] = [marked.map(([x]) => x), marked.map(([, y]) => y)];
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const pointsMm = marked.map(([x, y]) => [(x - left) / pxPerMm, (y - top) / pxPerMm]);
  return {
    spec: {
      name,
      widthMm: (right - left) / pxPerMm,
      heightMm: (bottom - top) / pxPerMm,
      print: 'dark',
      outline: { kind: 'polygon', pointsMm },
    },
    corners: [[left, top], [right, top], [right, bottom], [left, bottom]], // prettier-ignore
  };
}

describe.skipIf(photosAbsent || !existsSync(path.join(photosFolder, lit)))(`a real pair of meters${whySkipped}`, () => {
  let windows: MeasuredWindow[];
  let match: readonly Match[];

  beforeAll(async () => {
    const [left, right] = (knownPhotos.find(({ file }) => file === lit)?.lit_windows ?? []).map((one, i) =>
      windowOf(['left', 'right'][i], one.corners_TL_TR_BR_BL),
    );
    const corners = { left: left.corners, right: right.corners };
    const series = {
      format: 'evendial-series',
      version: 1,
      windows: [left.spec, right.spec],
      trials: [{ name: 'bulbs', photos: [lit], light: 'filament', lampOff: off, printPhoto: off, corners }],
    };
    const request = requestOfSeries(readSeries(JSON.stringify(series), 'drawn'), (file) =>
      path.join(photosFolder, file),
    );
    const decoder = createDecoder();
    try {
      const decodePhoto = (file: string, asked: Parameters<typeof decoder.decode>[1]) => decoder.decode(file, asked);
      const result = await measurePhotos({ ...request, withMaps: true }, { decodePhoto, nowMs: () => 0 });
      windows = result.windows.filter((entry): entry is MeasuredWindow => 'reading' in entry);
    } finally {
      await decoder.close();
    }
    const shown = windows.map(({ role, reading, facts }): ShownWindow => ({ role, reading, facts, witness: null }));
    ({ match } = compareSeries(['left', 'right'], shown, []));
  });

  const codesOf = ({ reading }: MeasuredWindow) => reading.gates.map(({ code, level }) => `${code} ${level}`);

  it('[PR8] both are measured, and as bright as each other: the marks say 0.408 and 0.407 of white', () => {
    expect(windows.map(({ reading }) => reading.window)).toEqual(['left', 'right']);
    expect(windows.map(({ reading }) => reading.evenness.score.value !== null)).toEqual([true, true]);
    const [only, ...none] = match;
    expect(none).toEqual([]);
    expect(only).toMatchObject({ photoOrTrial: 'bulbs', windows: ['left', 'right'], brighter: null });
    const { value, plusMinus } = only.luminanceRatio;
    expect(1 - (value ?? 0)).toBeLessThan(plusMinus ?? 0);
    // Red is clipped on 7 % of each: no colour can be matched.
    expect(only.deltaUv.reason).toMatch(/^left: Red is clipped/);
  });

  it('[CP1] the photo with the bulbs off is not subtracted, and its print is not carried over; both say why', () => {
    for (const window of windows) {
      expect(codesOf(window)).toEqual(expect.arrayContaining(['LAMP_OFF_MISMATCH warn', 'PRINT_PHOTO_UNUSED warn']));
      const [mismatch] = window.reading.gates.filter(({ code }) => code === 'LAMP_OFF_MISMATCH');
      expect(mismatch.message).toMatch(/exposure of the lit photo is not known/);
      expect(window.reading.luminance.ambientShare).toBeNull();
    }
  });

  it('[PM1] the red zone is found right of the middle, where the figures are red', () => {
    for (const { maps } of windows) {
      const { redPrint, darkPrint } = maps!;
      const columns = Array.from(redPrint.values.keys()).filter((i) => redPrint.values[i]).map((i) => i % redPrint.width); // prettier-ignore
      columns.sort((a, b) => a - b);
      const share = (rank: number): number => columns[Math.floor(rank * columns.length)] / redPrint.width;
      expect(columns.length).toBeGreaterThan(1500);
      expect(share(0.05)).toBeGreaterThan(0.58);
      const dark = Array.from(darkPrint.values.keys()).filter((i) => darkPrint.values[i] && i % redPrint.width < 0.55 * redPrint.width); // prettier-ignore
      expect(dark.length).toBeGreaterThan(3000);
    }
  });
});
