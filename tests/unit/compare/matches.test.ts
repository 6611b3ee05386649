import { describe, expect, it } from 'vitest';
import { findMatches } from '../../../core/compare/find-matches';
import { figure, missing } from '../../../core/contract/figure';
import { madeUpShown, type MadeUp } from './made-up-windows';

const order = ['left', 'right'];
const match = (...windows: MadeUp[]) => findMatches(windows.map(madeUpShown), order);
/** A photo whose tone curve is known. */
const linear = { curveShift: { u: 0, v: 0 } } as const;
const left: MadeUp = { name: 'meters', window: 'left', photo: 'both', leftPx: 700, glowMean: figure(0.25, 0.02) };
const right: MadeUp = { ...left, window: 'right', leftPx: 2500, glowMean: figure(0.31, 0.02), score: figure(64, 3.1) };

describe('findMatches', () => {
  it('[PR8] two windows of one photo: dimmer over brighter, in the order of the series', () => {
    const [only, ...none] = match(right, left);
    expect(none).toEqual([]);
    expect(only).toMatchObject({ photoOrTrial: 'meters', windows: ['left', 'right'], brighter: 'right' });
    expect(only.luminanceRatio.value).toBeWithin(0.25 / 0.31, 1e-12);
    // 1 % noise and 4 % of the lens's corners by the square of the distance from the middle: one photo knows more than two.
    expect(only.luminanceRatio.plusMinus).toBeLessThan(0.05);
    expect(only.evennessDifference.value).toBeWithin(64 - 71.2, 1e-9);
    expect(only.evennessDifference.plusMinus).toBeWithin(2 * 1.55 * Math.sqrt(0.4), 1e-9);
    // Equal colours may be shifted apart either way, by what the two do not share of the tone curve: a fifth in square.
    const curve = Math.sqrt(2 * (1 - 0.8)) * Math.hypot(0.004, 0.001);
    expect(only.deltaUv.plusMinus).toBeWithin(2 * Math.hypot(0.001, curve), 1e-9);
    expect(match({ ...right, ...linear }, { ...left, ...linear })[0].deltaUv).toEqual(figure(0, 0.002));
    expect(only.leak).toEqual(missing('both windows are lit'));
  });

  it('[PR8] neither is called brighter when they cannot be told apart', () => {
    expect(match(left, { ...right, glowMean: figure(0.253, 0.02) })[0].brighter).toBeNull();
  });

  it('[PR8] LED left, filament right in one photo: the reference stands for its window, whatever the trial says of its light', () => {
    const lamp: MadeUp = { ...right, name: 'reference', role: 'reference', light: 'filament', uv: [0.2755, 0.5327] };
    const [only, ...none] = match({ ...lamp, ...linear }, { ...left, ...linear }, right);
    expect(none).toEqual([]);
    expect(only.photoOrTrial).toBe('meters');
    expect(only.deltaUv.value).toBeWithin(Math.hypot(0.0135, 0.0116), 1e-9);
    expect(only.deltaUv.plusMinus).toBeWithin(2 * Math.hypot(0.001, 0.006), 1e-9);
  });

  it('[PR8] lit one at a time: the leak in each photo, and the two lit windows from both', () => {
    const shots: MadeUp[] = [
      { ...left, name: 'left lit', photo: 'one' },
      { ...right, name: 'left lit', photo: 'one', glowMean: figure(0.0125, 0.001) },
      { ...left, name: 'right lit', photo: 'two', glowMean: figure(0.0062, 0.001) },
      { ...right, name: 'right lit', photo: 'two' },
    ];
    const [first, second, both, ...none] = match(...shots);
    expect(none).toEqual([]);
    expect([first.leak.value, first.brighter]).toEqual([first.luminanceRatio.value, 'left']);
    expect(first.leak.value).toBeWithin(0.05, 1e-12);
    expect(second.leak.value).toBeWithin(0.02, 1e-12);
    expect(both).toMatchObject({ photoOrTrial: 'left lit / right lit', brighter: 'right' });
    expect(both.luminanceRatio.value).toBeWithin(0.25 / 0.31, 1e-12);
    expect(both.leak).toEqual(missing('both windows are lit'));
  });

  it('[PR8] a window too dark for figures of its own still tells the leak, to the room light and the black of the camera', () => {
    const tooDark = { code: 'PHOTO_TOO_DARK', level: 'refuse', message: 'm', remedy: 'r', value: 0.002, affects: ['luminance'] } as const; // prettier-ignore
    const off: MadeUp = { ...right, glowMean: missing('m'), gates: [tooDark], level: 0.003 };
    // The lit one: 0.31 x 0.1 s x ISO 100 / 16 in its photo.
    const lit = (0.31 * 10) / 16;
    const [only, ...none] = match({ ...left, glowMean: figure(0.31, 0.02) }, off);
    expect(none).toEqual([]);
    expect(only.leak.value).toBeWithin(0.003 / lit, 1e-12);
    const room = 0.001; // a tenth of the 1 % that was subtracted
    expect(only.leak.plusMinus).toBeWithin(2 * Math.hypot(room, 0.0005 / lit), 2e-3); // and the lens, the print, noise
    expect([only.brighter, only.evennessDifference.value === null]).toEqual(['left', false]);
  });

  it('[PR8] in two photos: exposures must be known and white balance set by hand', () => {
    const alone: MadeUp = { ...right, name: 'right one', photo: 'other', camera: { exposureS: 0.05 } };
    const [only] = match(left, alone);
    expect(only.photoOrTrial).toBe('meters / right one');
    expect(only.luminanceRatio.plusMinus ?? 0).toBeGreaterThan(0.1);
    const [untied] = match(left, { ...alone, camera: { whiteBalance: 'auto' } });
    expect(untied.deltaUv.value).toBeNull();
  });

  it('[PR8] one window alone has no match, nor has a photo that failed', () => {
    expect(match(left)).toEqual([]);
    expect(match(left, { ...left, name: 'again', photo: 'later' })).toEqual([]);
    expect(match()).toEqual([]);
  });
});
