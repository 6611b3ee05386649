import { describe, expect, it } from 'vitest';
import { evennessFromGreen } from '../../../core/reading/gates/clipping';
import { refusalOf } from '../../../core/reading/gates/gate';
import type { GateFacts } from '../../../core/reading/gates/gate-facts';
import { raiseGates } from '../../../core/reading/gates/raise-gates';
import { gateCodes } from '../../../core/contract/gates';
import type { PhotoChecks } from '../../../core/reading/photo-checks';
import workedExamples from '../../published/data/worked_examples.json';

const faultlessChecks: PhotoChecks = {
  edgeMm: 0.31,
  edgePx: 3.4,
  stripesPeakToPeak: null,
  frameDistancePx: 120,
  reflection: null,
  toneHints: [],
  isToneMapped: false,
};
const checked = (change: Partial<PhotoChecks>): Partial<GateFacts> => ({ checks: { ...faultlessChecks, ...change } });
const patch = { atMm: { xMm: 37, yMm: 12 }, areaMm2: 2.1, brighterBy: 0.4, coolerBy: 0.6, edgePerMm: 0.5 };

/** A photo without fault: a dark room proven by a lamp-off photo, manual everything. */
const faultless: GateFacts = {
  redClippedShare: 0,
  greenClippedShare: 0.001,
  blueClippedShare: 0.002,
  nearBlackShare: 0.003,
  medianRelLuminance: 0.31,
  cellNoise: 0.012,
  pxPerMm: 14,
  glowShare: 0.71,
  glowCells: 4100,
  longSideMm: 92,
  sizeKnown: true,
  tiltDeg: 9,
  viewShare: 0.38,
  aspectError: 0.013,
  isSizeSwapped: false,
  searchConfidence: null,
  darkRim: { share: 0.012, widthMm: 0.9 },
  printedRim: { share: 0.09, widthMm: 1.1 },
  isLinearJpeg: false,
  checks: faultlessChecks,
  exposureKnown: true,
  whiteBalance: 'manual',
  colourSpaceAssumed: false,
  outsideGamutShare: 0.004,
  room: 'dark',
  ambientShare: 0.021,
  isResponseKnown: true,
  printMaskFrom: 'other',
  polarity: 'dark',
  notRegistered: null,
  unusedPrintPhoto: null,
};

const raised = (change: Partial<GateFacts>) =>
  raiseGates({ ...faultless, ...change }).map((g) => [g.code, g.level] as const);

describe('raiseGates', () => {
  it('[GT6] room light that an unknown tone curve may hide is told as a least amount', () => {
    const told = (isResponseKnown: boolean) =>
      raiseGates({ ...faultless, ambientShare: 0.084, isResponseKnown })[0].message;
    expect(told(true)).toMatch(/8\.4 % of the lamp's light; it was/);
    expect(told(false)).toMatch(/8\.4 % of the lamp's light or more/);
  });

  it('[GT1] a faultless photo raises none', () => {
    expect(raised({})).toEqual([]);
  });

  interface GateInput {
    green_clipped_percent: number;
    red_clipped_percent: number;
    near_black_percent: number;
    ambient_percent: number;
    white_balance: string;
  }
  const examples = workedExamples.filter((example) => example.id.startsWith('gate-'));
  it('[GT1] the worked examples are all here', () => {
    expect(examples.map((example) => example.id)).toEqual(['gate-0', 'gate-1', 'gate-2', 'gate-3', 'gate-4']);
  });
  it.each(examples)('[GT1] worked example $id', (example) => {
    const input = example.input as unknown as GateInput;
    const expected = (example.expected as unknown as { gates: [string, string][] }).gates;
    const gates = raised({
      greenClippedShare: input.green_clipped_percent / 100,
      redClippedShare: input.red_clipped_percent / 100,
      nearBlackShare: input.near_black_percent / 100,
      ambientShare: input.ambient_percent / 100,
      whiteBalance: input.white_balance === 'auto' ? 'auto' : 'manual',
    });
    expect([...gates].sort()).toEqual([...expected].sort());
  });

  // One row a threshold: just under it nothing, just over it the gate.
  const thresholds: [string, Partial<GateFacts>, Partial<GateFacts>, string, string][] = [
    ['green clipped, warn', { greenClippedShare: 0.0049 }, { greenClippedShare: 0.0051 }, 'PHOTO_CLIPPED', 'warn'],
    ['green clipped, refuse', { greenClippedShare: 0 }, { greenClippedShare: 0.0201 }, 'PHOTO_CLIPPED', 'refuse'],
    ['red clipped', { redClippedShare: 0.0049 }, { redClippedShare: 0.0051 }, 'RED_CLIPPED', 'refuse'],
    ['blue clipped', { blueClippedShare: 0.0048 }, { blueClippedShare: 0.0052 }, 'BLUE_CLIPPED', 'refuse'],
    ['nearly black', { nearBlackShare: 0.049 }, { nearBlackShare: 0.051 }, 'PHOTO_TOO_DARK', 'warn'],
    ['black', { medianRelLuminance: 0.011 }, { medianRelLuminance: 0.009 }, 'PHOTO_TOO_DARK', 'refuse'],
    ['noise, warn', { cellNoise: 0.049 }, { cellNoise: 0.051 }, 'PHOTO_NOISY', 'warn'],
    ['noise, refuse', { cellNoise: 0.01 }, { cellNoise: 0.21 }, 'PHOTO_NOISY', 'refuse'],
    ['coarse', { pxPerMm: 6.1 }, { pxPerMm: 5.9 }, 'RESOLUTION_LOW', 'warn'],
    ['too coarse', { pxPerMm: 6.2 }, { pxPerMm: 2.9 }, 'RESOLUTION_LOW', 'refuse'],
    ['little glow', { glowShare: 0.31 }, { glowShare: 0.29 }, 'GLOW_TOO_SMALL', 'refuse'],
    ['short window', { longSideMm: 8.1 }, { longSideMm: 7.9 }, 'GLOW_TOO_SMALL', 'refuse'],
    ['tilt, warn', { tiltDeg: 34.9 }, { tiltDeg: 35.1 }, 'TILTED', 'warn'],
    ['tilt, refuse', { tiltDeg: 35 }, { tiltDeg: 55.2 }, 'TILTED', 'refuse'],
    ['fills the frame', { viewShare: 0.59 }, { viewShare: 0.61 }, 'WINDOW_TOO_WIDE', 'warn'],
    ['other shape', { aspectError: 0.079 }, { aspectError: 0.081 }, 'ASPECT_DIFFERS', 'warn'],
    [
      'corners on the frame',
      { darkRim: { share: 0.039, widthMm: 2.1 } },
      { darkRim: { share: 0.041, widthMm: 2.2 } },
      'OUTLINE_ON_FRAME',
      'refuse',
    ],
    [
      'a frame taken for print',
      { printedRim: { share: 0.24, widthMm: 1.3 } },
      { printedRim: { share: 0.26, widthMm: 1.3 } },
      'OUTLINE_ON_FRAME',
      'warn',
    ],
    ['unsure search', { searchConfidence: 0.51 }, { searchConfidence: 0.49 }, 'OUTLINE_UNSURE', 'warn'],
    ['a JPEG stated linear', {}, { isLinearJpeg: true }, 'ENCODING_DOUBTFUL', 'warn'],
    ['soft', checked({ edgeMm: 0.49 }), checked({ edgeMm: 0.51 }), 'PHOTO_NOT_SHARP', 'warn'],
    ['soft in pixels', checked({ edgePx: 3.9 }), checked({ edgePx: 4.1 }), 'PHOTO_NOT_SHARP', 'warn'],
    ['soft but coarse', checked({ edgeMm: 0.6, edgePx: 1.9 }), checked({ edgeMm: 1.6 }), 'PHOTO_NOT_SHARP', 'refuse'],
    ['stripes', checked({ stripesPeakToPeak: 0.009 }), checked({ stripesPeakToPeak: 0.011 }), 'BANDING', 'warn'],
    ['strong stripes', {}, checked({ stripesPeakToPeak: 0.041 }), 'BANDING', 'refuse'],
    ['a reflection', {}, checked({ reflection: { largest: patch, share: 0.0013 } }), 'REFLECTION', 'warn'],
    ['a night mode', {}, checked({ toneHints: ['a night mode'] }), 'TONE_MAPPED', 'warn'],
    ['HDR', {}, checked({ toneHints: ['HDR rendering'], isToneMapped: true }), 'TONE_MAPPED', 'refuse'],
    ['cut', checked({ frameDistancePx: 1.1 }), checked({ frameDistancePx: 0.9 }), 'WINDOW_CUT', 'warn'],
    ['cut away', {}, checked({ frameDistancePx: -1.2 }), 'WINDOW_CUT', 'refuse'],
    ['size swapped', {}, { aspectError: 25, isSizeSwapped: true }, 'ASPECT_DIFFERS', 'warn'],
    ['outside the gamut', { outsideGamutShare: 0.049 }, { outsideGamutShare: 0.052 }, 'OUT_OF_GAMUT', 'warn'],
    ['room light', { ambientShare: 0.049 }, { ambientShare: 0.051 }, 'ROOM_LIGHT', 'warn'],
    ['size', { sizeKnown: true }, { sizeKnown: false, aspectError: null }, 'SIZE_ASSUMED', 'note'],
    ['exposure', { exposureKnown: true }, { exposureKnown: false }, 'EXPOSURE_UNKNOWN', 'warn'],
    ['profile', { colourSpaceAssumed: false }, { colourSpaceAssumed: true }, 'PROFILE_MISSING', 'warn'],
    ['print mask', { printMaskFrom: null }, { printMaskFrom: 'photo' }, 'PRINT_MASK_SINGLE_PHOTO', 'note'],
    ['a print photo of something else', {}, { unusedPrintPhoto: 'p.jpg' }, 'PRINT_PHOTO_UNUSED', 'warn'],
    ['not registered', {}, { notRegistered: 'no print' }, 'NOT_REGISTERED', 'note'],
    ['print undecided', { polarity: 'none' }, { polarity: null }, 'PRINT_UNDECIDED', 'refuse'],
    [
      'few lit cells',
      { polarity: 'light', glowShare: 0.07, glowCells: 201 },
      { polarity: 'light', glowShare: 0.07, glowCells: 199 },
      'GLOW_TOO_SMALL',
      'refuse',
    ],
    ['room not stated', {}, { ambientShare: null, room: 'unknown' }, 'ROOM_UNKNOWN', 'refuse'],
    ['room stated dark', {}, { ambientShare: null, room: 'dark' }, 'ROOM_UNKNOWN', 'warn'],
  ];
  it.each(thresholds)('[GT1, GT8] %s', (_name, under, over, code, level) => {
    expect(raised(under)).toEqual([]);
    expect(raised(over)).toEqual([[code, level]]);
  });

  it('[GT1] room light beyond a quarter of the lamp refuses the red print and warns for the rest', () => {
    expect(raised({ ambientShare: 0.26 })).toEqual([
      ['ROOM_LIGHT', 'refuse'],
      ['ROOM_LIGHT', 'warn'],
    ]);
  });

  it('[GT1] figures that may be taken for ground are no noise', () => {
    expect(raised({ polarity: null, cellNoise: 0.44 })).toEqual([['PRINT_UNDECIDED', 'refuse']]);
  });

  it('[GT1] a dark frame in the outline is told before the noise in it', () => {
    const both = raised({ cellNoise: 0.24, darkRim: { share: 0.9, widthMm: 4 } });
    expect(both.map(([code]) => code)).toEqual(['OUTLINE_ON_FRAME', 'PHOTO_NOISY']);
  });

  it('[GT1] every gate has a message with a remedy and a known code, the most severe first', () => {
    const worst = raiseGates({
      ...faultless,
      redClippedShare: 0.31,
      nearBlackShare: 0.2,
      pxPerMm: 2.5,
      sizeKnown: false,
      tiltDeg: 41,
      whiteBalance: 'unknown',
    });
    expect(worst.length).toBeGreaterThanOrEqual(6);
    for (const gate of worst) {
      expect(gateCodes).toContain(gate.code);
      expect(gate.message.length).toBeGreaterThan(20);
      expect(gate.remedy).toMatch(/\.$/);
      expect(gate.affects.length).toBeGreaterThan(0);
    }
    const levels = worst.map((gate) => ['refuse', 'warn', 'note'].indexOf(gate.level));
    expect(levels).toEqual([...levels].sort());
  });
});

describe('refusalOf', () => {
  it('[GT3] finds the refusing gate of a group, and none for a group that is only warned', () => {
    const gates = raiseGates({ ...faultless, redClippedShare: 0.12, tiltDeg: 37 });
    expect(refusalOf(gates, 'colour')?.code).toBe('RED_CLIPPED');
    expect(refusalOf(gates, 'evenness')).toBeNull();
  });
});

describe('evennessFromGreen', () => {
  it('[GT2] green rules when red or blue is clipped and green is not', () => {
    const shares = (red: number, green: number, blue: number) => ({
      redClippedShare: red,
      greenClippedShare: green,
      blueClippedShare: blue,
    });
    expect(evennessFromGreen(shares(0.09, 0.01, 0))).toBe(true);
    expect(evennessFromGreen(shares(0, 0.011, 0.07))).toBe(true);
    expect(evennessFromGreen(shares(0.09, 0.021, 0))).toBe(false);
    expect(evennessFromGreen(shares(0.004, 0, 0.003))).toBe(false);
  });
});
