import type { Mask, Plane } from '../../../core/base/plane';
import type { ComparableFacts, UncertaintyBasis } from '../../../core/contract/comparable';
import { figure, missing } from '../../../core/contract/figure';
import type { MappedWindow, MeasuredWindow, ReadingMaps } from '../../../core/contract/measure';
import type { Reading } from '../../../core/contract/readings';

/** A good photo in a dark room, its lamps-off photo subtracted. */
export const madeUpBasis: UncertaintyBasis = {
  response: 'linear',
  isSmallCamera: false,
  light: 'warm-white',
  room: 'dark',
  ambientShare: 0.01,
  viewShare: 0.3,
  printMaskFrom: 'other',
  printShare: 0.1,
  clippedShare: 0,
  cellNoise: 0.01,
  pxPerMm: 14,
  whiteBalance: 'manual',
};

/** A reading with numbers of our own, all different, for tests of what is printed. */
export function madeUpReading(changes: Partial<Reading> = {}): Reading {
  const points = { minOverMax: figure(0.71, 0.03), values: [0.9, 0.86, 0.94, 1, 0.88, 0.99, 0.97, null, 0.71], plusMinus: [0.02, 0.03, 0.02, 0, 0.03, 0.011, 0.02, null, 0.04] }; // prettier-ignore
  return {
    name: 'LEDs 8 mm behind',
    window: 'scale',
    photos: [
      {
        file: 'photos/a1.jpg',
        sha256: 'ab'.repeat(32),
        widthPx: 4000,
        heightPx: 3000,
        bitDepth: 8,
        format: 'jpeg',
        colourSpace: 'sRGB',
        colourSpaceAssumed: false,
        encoding: 'profile',
        camera: { whiteBalance: 'manual', exposureS: 1 / 30, fNumber: 4, iso: 400 },
      },
    ],
    outline: {
      cornersPx: [
        [412, 310],
        [2630, 322],
        [2624, 760],
        [405, 741],
      ],
      cornersFrom: 'given',
      widthMm: 92,
      heightMm: 18,
      sizeKnown: true,
      kind: 'rectangle',
      print: 'dark',
      pxPerMm: 24.1234567,
      tiltDeg: 3.2,
      glowShare: 0.81,
    },
    gates: [
      {
        code: 'WINDOW_TOO_WIDE',
        level: 'warn',
        message: "The window fills 63 % of the photo's width: dark corners of the lens may count as dark ends.",
        remedy: 'Step back until the window fills less than 40 % of the width.',
        value: 0.63,
        affects: ['evenness'],
      },
    ],
    evenness: {
      score: figure(76.3456789, 5.2),
      words: 'clearly uneven',
      toReference: missing('there is no filament reference'),
      visibleUnevenness: 0.0812,
      minOverMax: figure(0.512, 0.034),
      p5OverP95: figure(0.61, 0.041),
      coefficientOfVariation: figure(0.153, 0.012),
      ninePoint: points,
      fivePoint: { minOverMax: figure(0.66, 0.05), values: null, plusMinus: null },
      thirteenPoint: {
        minOverMax: missing('fewer than two thirds of the points lie on glow'),
        values: null,
        plusMinus: null,
      },
      steepestPercentPerMm: figure(4.4, 0.7),
      leftOverRight: figure(1.07, 0.025),
      topOverBottom: figure(0.98, 0.021),
    },
    spots: [
      {
        kind: 'hot',
        xMm: 25.13,
        yMm: 9.8,
        plusMinusMm: 0.9,
        diameterMm: 17.2,
        ratioToGlow: 1.34,
        ratioPlusMinus: 0.11,
        atLeast: false,
        elongation: 1.2,
        angleDeg: 12,
      },
      {
        kind: 'dark',
        xMm: 88.2,
        yMm: 9.1,
        plusMinusMm: 1.2,
        diameterMm: 8,
        ratioToGlow: 0.71,
        ratioPlusMinus: null,
        atLeast: true,
        elongation: 1.6,
        angleDeg: 90,
        lampSide: 'left',
      },
    ],
    luminance: {
      glowMean: figure(0.312, 0.02),
      cdM2: figure(12.7, 12.7),
      ofReference: missing('there is no filament reference'),
      clippedShare: 0.0021,
      ambientShare: null,
    },
    colour: {
      x: figure(0.4587, 0.004),
      y: figure(0.4102, 0.003),
      uPrime: figure(0.2601, 0.0031),
      vPrime: figure(0.5232, 0.0012),
      cctK: figure(2640, 150),
      duv: figure(0.0021, 0.0031),
      spreadUv: figure(0.0042, 0.0011),
      gradientUvPer10Mm: figure(0.0007, 0.0004),
      toReferenceUv: figure(0.0083, 0.0117),
      toReferenceDeltaE00: figure(3.1, 2.2),
      outOfGamut: false,
      verdict: 'none the camera can prove',
    },
    redPrint: {
      maskFrom: 'photo',
      strokeMm: 0.62,
      redness: figure(0.21, 0.03),
      luminanceContrast: figure(0.44, 0.05),
      index: missing('it is not known whether other light fell on the window'),
      indexAgainst: null,
      darkContrastKept: figure(0.93, 0.04),
      visibilityRatio: figure(11.2, 2.3),
      deltaE00: figure(28.4, 3.3),
      words: '',
    },
    timingMs: { decode: 123.4, measure: 567.8 },
    ...changes,
  };
}

function planeOf(width: number, height: number, valueAt: (column: number, row: number) => number): Plane {
  const values = Float32Array.from({ length: width * height }, (_, i) => valueAt(i % width, Math.floor(i / width)));
  return { width, height, values };
}

function maskOf(width: number, height: number, isSet: (column: number, row: number) => boolean): Mask {
  const values = Uint8Array.from({ length: width * height }, (_, i) =>
    isSet(i % width, Math.floor(i / width)) ? 1 : 0,
  );
  return { width, height, values };
}

/** Maps of a window with two bright spots, a few strokes of print and a border; round when asked. */
export function madeUpMaps(widthMm: number, heightMm: number, round = false): ReadingMaps {
  const [nx, ny] = [Math.ceil(4 * widthMm), Math.ceil(4 * heightMm)];
  const inside = (x: number, y: number, border: number): boolean => {
    const [halfX, halfY] = [widthMm / 2, heightMm / 2];
    if (!round) return x > border && y > border && x < widthMm - border && y < heightMm - border;
    return ((x - halfX) / (halfX - border)) ** 2 + ((y - halfY) / (halfY - border)) ** 2 < 1;
  };
  const light = (x: number, y: number): number => {
    const spot = (atX: number): number => Math.exp(-((x - atX * widthMm) ** 2 + (y - heightMm / 2) ** 2) / 60);
    return 0.2 + 0.25 * spot(0.27) + 0.18 * spot(0.74);
  };
  const print = (x: number, y: number): boolean =>
    (x % 8 < 0.5 && y > heightMm * 0.2 && y < heightMm * 0.45) || (x % 16 < 3 && Math.abs(y - heightMm * 0.7) < 0.4);
  const mm = (cell: number): number => (cell + 0.5) / 4;
  const glowing = (c: number, r: number): boolean => inside(mm(c), mm(r), 1) && !print(mm(c), mm(r));
  const ifGlow =
    (valueAt: (x: number, y: number) => number) =>
    (c: number, r: number): number =>
      glowing(c, r) ? valueAt(mm(c), mm(r)) : NaN;
  const [wide, high] = [Math.ceil(10 * widthMm), Math.ceil(10 * heightMm)];
  const rgb = new Float32Array(3 * wide * high);
  for (let i = 0; i < wide * high; i++) {
    const [x, y] = [((i % wide) + 0.5) / 10, (Math.floor(i / wide) + 0.5) / 10];
    const level = inside(x, y, 0) ? light(x, y) * (print(x, y) ? 0.15 : 1.6) : 0.004;
    rgb.set([level, level * 0.72, level * 0.33], 3 * i);
  }
  return {
    widthMm,
    heightMm,
    glowLuminance: planeOf(nx, ny, ifGlow(light)),
    exposureNormalised: true,
    filledLuminance: planeOf(nx, ny, (c, r) => (inside(mm(c), mm(r), 0) ? light(mm(c), mm(r)) : NaN)),
    uPrime: planeOf(
      nx,
      ny,
      ifGlow((x) => 0.26 + (0.012 * x) / widthMm),
    ),
    vPrime: planeOf(
      nx,
      ny,
      ifGlow((x, y) => 0.523 + (0.006 * y) / heightMm + 0.001 * (x / widthMm)),
    ),
    visibleUnevenness: planeOf(
      nx,
      ny,
      ifGlow((x, y) => 1.1 * Math.log(light(x, y) / 0.27)),
    ),
    redPrint: maskOf(wide, high, (c, r) => c > wide * 0.6 && print(c / 10, r / 10)),
    darkPrint: maskOf(wide, high, (c, r) => c <= wide * 0.6 && print(c / 10, r / 10)),
    coveredByPrint: maskOf(wide, high, (c, r) => print(c / 10, r / 10)),
    isFromGreen: false,
    window: { width: wide, height: high, rgb },
  };
}

export const madeUpFacts: ComparableFacts = {
  level: 0.29,
  camera: { whiteBalance: 'manual', exposureS: 1 / 30, fNumber: 4, iso: 400 },
  basis: madeUpBasis,
  curveShift: { u: 0.004, v: -0.001 },
  redPrint: {
    redness: { toneCurve: 0.004, others: 0.003 },
    luminanceContrast: { toneCurve: -0.02, others: 0.015 },
    visibility: 41,
    widthFactor: 0.72,
  },
};

export function madeUpWindow(changes: Partial<Reading> = {}, maps = madeUpMaps(92, 18)): MeasuredWindow & MappedWindow {
  return { role: 'trial', reading: madeUpReading(changes), facts: madeUpFacts, maps };
}
