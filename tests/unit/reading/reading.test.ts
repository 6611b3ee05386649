import { describe, expect, it } from 'vitest';
import type { LinearPhoto } from '../../../core/base/linear-photo';
import type { Corners } from '../../../core/base/points';
import type { Figure } from '../../../core/contract/figure';
import type { LocatedWindow, MeasureJob } from '../../../core/contract/measure';
import type { PhotoFacts } from '../../../core/photo/decoded-photo';
import { readWindow, type ReadingInput } from '../../../core/reading/reading';

const widthPx = 1600;
const heightPx = 300;
/** 60 x 20 mm at 10 px a mm, from (150, 50). */
const corners: Corners = [
  { column: 150, row: 50 },
  { column: 750, row: 50 },
  { column: 750, row: 250 },
  { column: 150, row: 250 },
];
type Light = (xMm: number, yMm: number) => readonly [number, number, number];

/** A photo of a window in a black panel; a channel at or above 0.98 is flagged as clipped. */
function photograph(light: Light, response: LinearPhoto['response'] = 'linear'): LinearPhoto {
  const rgb = new Float32Array(3 * widthPx * heightPx);
  const flags = new Uint8Array(widthPx * heightPx);
  for (let row = 50; row < 250; row++) {
    for (let column = 150; column < 750; column++) {
      const at = row * widthPx + column;
      light((column + 0.5 - 150) / 10, (row + 0.5 - 50) / 10).forEach((value, channel) => {
        rgb[3 * at + channel] = Math.min(1, value);
        if (value >= 0.98) flags[at] |= 1 << channel;
      });
    }
  }
  const region = { column: 0, row: 0, width: widthPx, height: heightPx };
  return { region, widthPx, heightPx, rgb, flags, colourSpace: 'sRGB', colourSpaceAssumed: false, response };
}

const camera = { whiteBalance: 'manual', exposureS: 0.1, fNumber: 4, iso: 200 } as const;
const facts: PhotoFacts = {
  sha256: 'c0'.repeat(32),
  widthPx,
  heightPx,
  bitDepth: 16,
  format: 'tiff',
  camera,
  exifSaysSrgb: true,
  toneMappingHints: [],
};
const window: LocatedWindow = {
  spec: { name: 'scale', shape: { kind: 'rectangle' }, print: 'auto', leaveOut: [], paintedRed: [], paintedDark: [] },
  sizeMm: { widthMm: 60, heightMm: 20 },
  corners,
};
const job: MeasureJob = {
  role: 'trial',
  name: 'try 1',
  photo: { file: 'try1.tif', path: 'try1.tif', encoding: 'linear', encodingStated: true, exposure: {} },
  light: 'warm-white',
  windows: [window],
};

const read = (light: Light, change: Partial<ReadingInput> = {}) =>
  readWindow({
    job,
    window,
    facts,
    linear: photograph(light),
    request: { room: 'dark', viewingDistanceMm: 500, withMaps: true },
    ...change,
  });

const tint = [1, 0.72, 0.38] as const;
const grey =
  (level: (xMm: number, yMm: number) => number): Light =>
  (x, y) => {
    const l = level(x, y);
    return [tint[0] * l, tint[1] * l, tint[2] * l];
  };
const spot = (x: number, y: number) => 1 + Math.exp(-((x - 20) ** 2 + (y - 9) ** 2) / 50);

describe('readWindow', () => {
  it('[RD7] an even window: score 100, ratios 1, its own colour, and no gate but the unchecked dark room and no red print', () => {
    const { reading } = read(grey(() => 0.4));
    expect(reading.gates.map((gate) => gate.code)).toEqual(['ROOM_UNKNOWN', 'RED_NOT_FOUND']);
    expect(reading.evenness.score.value).toBe(100);
    expect(reading.evenness.minOverMax.value).toBeWithin(1, 1e-5); // float32
    expect(reading.evenness.ninePoint.values).toHaveLength(9);
    expect(reading.outline).toMatchObject({ print: 'dark', sizeKnown: true, glowShare: 1 });
    expect(reading.outline.pxPerMm).toBeWithin(10, 1e-9);
    // u'v' of linear sRGB (1, .72, .38) by the matrix of IEC 61966-2-1: X .7385, Y .7550, Z .4663
    expect(reading.colour.uPrime.value).toBeWithin(0.2194, 2e-4); // the matrix in four decimals
    expect(reading.colour.vPrime.value).toBeWithin(0.5047, 2e-4);
    // q = Y N^2 / (t S): mean Y 0.4 x 0.755 times 16 / (0.1 x 200)
    expect(reading.luminance.glowMean.value).toBeWithin(0.4 * 0.755 * 0.8, 1e-3);
  });

  it('[RD7, RD8] a window with a hot spot scores below 60 and the maps show it', () => {
    const { reading, maps } = read(grey((x, y) => 0.3 * spot(x, y)));
    expect(reading.evenness.score.value).toBeWithin(51, 4); // spot of twice the glow, sigma 5 mm
    expect(reading.evenness.minOverMax.value).toBeWithin(0.5, 0.02); // far from the spot over its peak
    expect(reading.evenness.words).toMatch(/hot spot|uneven|spotty/);
    const hottest = maps!.visibleUnevenness!.values.reduce((a, b) => Math.max(a, Number.isNaN(b) ? -9 : b), -9);
    expect(hottest).toBeGreaterThan(0.4);
    expect(reading.spots).toHaveLength(1);
    expect(reading.spots[0].xMm).toBeWithin(20, 0.3); // drawn there
    expect(reading.spots[0].yMm).toBeWithin(9, 0.3);
    // The filled picture keeps the spot: a fill from the wrong side of the mask would be flat.
    const at = (xMm: number, yMm: number) =>
      maps!.filledLuminance.values[Math.floor(yMm * 4) * 240 + Math.floor(xMm * 4)];
    expect(at(20, 9) / at(50, 9)).toBeWithin(2, 0.03);
  });

  it('[RD2] print is left out: ticks change the score by less than a point', () => {
    const isTick = (x: number, y: number): boolean => x % 5 > 2.3 && x % 5 < 2.8 && y > 7 && y < 12;
    const plain = read(grey((x, y) => 0.3 * spot(x, y))).reading;
    const printed = read(grey((x, y) => 0.3 * spot(x, y) * (isTick(x, y) ? 0.03 : 1))).reading;
    expect(printed.evenness.score.value! - plain.evenness.score.value!).toBeWithin(0, 1);
    expect(printed.redPrint.maskFrom).toBe('photo');
    expect(printed.outline.glowShare).toBeLessThan(plain.outline.glowShare);
    expect(printed.gates.map((gate) => gate.code)).toContain('PRINT_MASK_SINGLE_PHOTO');
  });

  it('[RD2, RD5] red clipped in the spot: evenness from green stays, colour is refused with the reason', () => {
    const level = (x: number, y: number): number => 0.6 * spot(x, y);
    const { reading } = read(grey(level));
    const truth = read(grey((x, y) => 0.5 * level(x, y))).reading;
    expect(reading.evenness.score.value! - truth.evenness.score.value!).toBeWithin(0, 0.5);
    expect(reading.colour.uPrime).toMatchObject({ value: null, plusMinus: null });
    expect(reading.colour.uPrime.reason).toMatch(/red is clipped/i);
    expect(reading.gates[0].code).toBe('RED_CLIPPED');
  });

  it('[RD4, RD7] everything clipped: no figure of the light is given, and each says why', () => {
    const { reading } = read(grey((x, y) => 2 * spot(x, y)));
    for (const figure of [reading.evenness.score, reading.luminance.glowMean, reading.colour.x]) {
      expect(figure.value).toBeNull();
      expect(figure.reason).toMatch(/too bright/i);
    }
    expect(reading.evenness.visibleUnevenness).toBeNull();
  });

  it('[RD7] a black photo is refused, not measured', () => {
    const { reading } = read(grey(() => 0.0004));
    expect(reading.evenness.score.value).toBeNull();
    expect(reading.gates.map((gate) => gate.code)).toContain('PHOTO_TOO_DARK');
  });

  it('[RD1] no size: 60 mm wide, and said so', () => {
    const { reading } = read(
      grey(() => 0.4),
      { window: { ...window, sizeMm: null } },
    );
    expect(reading.outline).toMatchObject({ widthMm: 60, heightMm: 20, sizeKnown: false });
    expect(reading.gates.map((gate) => gate.code)).toContain('SIZE_ASSUMED');
  });

  it('[RD1] a window of 2 x 1 m is refused, not computed', () => {
    const huge = { ...window, sizeMm: { widthMm: 2000, heightMm: 1000 } };
    expect(() =>
      read(
        grey(() => 0.4),
        { window: huge },
      ),
    ).toThrow(/larger than what can be measured/);
  });

  it('[RD3, RD6] a stated exposure stands in for missing EXIF; without any, luminance says why', () => {
    const bare = { ...facts, camera: { whiteBalance: 'manual' } as const };
    const without = read(
      grey(() => 0.4),
      { facts: bare },
    ).reading;
    expect(without.luminance.cdM2.reason).toMatch(/exposure/);
    expect(read(grey(() => 0.4)).reading.luminance.cdM2).toSatisfy(
      (f: Figure) => f.value !== null && f.value === f.plusMinus,
    );
    expect(without.luminance.glowMean.value).toBeWithin(0.4 * 0.755, 1e-3);
    const stated = { ...job, photo: { ...job.photo, exposure: { exposureS: 0.1, fNumber: 4, iso: 200 } } };
    const withIt = read(
      grey(() => 0.4),
      { facts: bare, job: stated },
    ).reading;
    expect(withIt.luminance).toEqual(read(grey(() => 0.4)).reading.luminance);
  });

  it('[UN2] the doubt about the tone curve: unknown over stated over linear', () => {
    const light = grey((x, y) => 0.3 * spot(x, y));
    const plusMinus = (['linear', 'stated', 'unknown'] as const).map(
      (response) => read(light, { linear: photograph(light, response) }).reading.evenness.score.plusMinus!,
    );
    expect(plusMinus[0]).toBeLessThan(plusMinus[1]);
    expect(plusMinus[1]).toBeLessThan(plusMinus[2]);
    expect(plusMinus[2]).toBeWithin(7.8, 1); // METRICS: 3.8 (k = 1) at 50
  });

  it('[RD7] what is not there is null with its reason, never a number', () => {
    const { reading } = read(grey(() => 0.4));
    expect(reading.spots).toEqual([]);
    expect(reading.spotsReason).toBeUndefined(); // none, not refused
    expect(reading.redPrint.words).toMatch(/no red/i);
    expect(reading.redPrint.index).toMatchObject({ value: null, plusMinus: null });
    expect(reading.evenness.toReference.reason).toMatch(/no photo of the filament/);
  });

  it('[RD7] an ellipse has nine points, but no five and thirteen', () => {
    const ellipse = { ...window, spec: { ...window.spec, shape: { kind: 'ellipse' } as const } };
    const { reading } = read(
      grey(() => 0.4),
      { window: ellipse },
    );
    expect(reading.evenness.fivePoint).toMatchObject({ values: null, minOverMax: { value: null } });
    expect(reading.evenness.thirteenPoint.values).toBeNull();
    expect(reading.evenness.score.value).toBe(100);
    expect(reading.outline.glowShare).toBe(1);
  });

  /** Words of four letters: strokes 0.8 mm wide on black. */
  const isLitFigure = (x: number, y: number): boolean => {
    const [inWord, inLetter] = [x % 15, (x % 15) % 3];
    if (inWord > 12 || y < 6 || y > 13) return false;
    return inLetter < 0.8 || (inLetter < 2.2 && (y < 6.8 || (y > 9 && y < 9.8)));
  };
  const litWords = (light: (x: number, y: number) => number): Light =>
    grey((x, y) => light(x, y) * (isLitFigure(x, y) ? 1 : 0.004));

  it.each(['auto', 'light'] as const)('[RD9] even lit figures on black (%s) score 97 or more', (print) => {
    const { reading } = read(
      litWords(() => 0.5),
      { window: { ...window, spec: { ...window.spec, print } } },
    );
    expect(reading.outline.print).toBe('light');
    expect(reading.evenness.score.value).toBeGreaterThanOrEqual(97);
  });

  it('[RD9] a spot of twice the light behind lit figures scores within 5 points of the truth', () => {
    const behind = (x: number, y: number): number => 0.25 * spot(x, y);
    const truth = read(grey(behind)).reading.evenness.score.value!;
    expect(read(litWords(behind)).reading.evenness.score.value).toBeWithin(truth, 5);
  });

  it('[RD9] neither dark print nor lit figures: the score is refused, and how to state it is said', () => {
    const halfLit: Light = grey((x) => (x % 10 < 3.2 ? 0.5 : 0.06));
    const { reading } = read(halfLit);
    expect(reading.gates.map((gate) => gate.code)).toContain('PRINT_UNDECIDED');
    expect(reading.evenness.score.reason).toMatch(/not clear whether/);
  });

  it('[RD10] a red mark has redness and contrast with their plus-minus; its index is against a typical filament lamp', () => {
    const isMark = (x: number, y: number): boolean => x > 40 && x < 41.2 && y > 4 && y < 16;
    const { reading } = read((x, y) => {
      const [red, green, blue] = grey(() => 0.6)(x, y);
      return isMark(x, y) ? [0.75 * red, 0.12 * green, 0.1 * blue] : [red, green, blue];
    });
    const { redness, luminanceContrast, index, indexAgainst, strokeMm, darkContrastKept } = reading.redPrint;
    expect(redness.value).toBeGreaterThan(0.1);
    expect(redness.plusMinus).toBeLessThan(0.5 * redness.value!);
    // Y of the mark over that of the glow, by the weights of the tint: -.63
    const [r, g, b] = [0.2126 * tint[0], 0.7152 * tint[1], 0.0722 * tint[2]];
    const truth = (0.75 * r + 0.12 * g + 0.1 * b) / (r + g + b) - 1;
    expect(luminanceContrast.value).toBeWithin(truth, 0.02);
    expect(strokeMm).toBeWithin(1.2, 0.3); // the mask takes in blurred edges
    expect([index.value, indexAgainst]).toEqual([expect.closeTo((100 * redness.value!) / 0.15, 6), 'typical']);
    expect(darkContrastKept.reason).toMatch(/filament/);
  });

  it('[RD10] red print is refused with the room unknown, and a plain window has none to judge', () => {
    const unknown = read(
      grey(() => 0.4),
      { request: { room: 'unknown', viewingDistanceMm: 500 } },
    ).reading;
    expect(unknown.redPrint.redness.reason).toMatch(/red print cannot be judged/i);
    expect(read(grey(() => 0.4)).reading.gates.map((gate) => gate.code)).toContain('RED_NOT_FOUND');
  });

  it.each(['left', 'right', 'top', 'bottom'])(
    '[RD4] a dead lamp (%s black to code 0) is no crash and no praise',
    (side) => {
      const isBlack = (x: number, y: number): boolean =>
        ({ left: x < 19, right: x > 41, top: y < 7, bottom: y > 13 })[side] ?? false;
      // The light fades towards the dead lamp, as it does in a box, so this is no frame.
      const fade = (x: number): number =>
        Math.exp(-3 * Math.max(0, side === 'left' ? (30 - x) / 11 : side === 'right' ? (x - 30) / 11 : 0));
      const { reading } = read(grey((x, y) => (isBlack(x, y) ? 0 : 0.5 * fade(x))));
      const { score, minOverMax } = reading.evenness;
      if (score.value === null) expect(reading.gates[0].level).toBe('refuse');
      else expect([score.value < 30, minOverMax.value]).toEqual([true, 0]);
    },
  );

  it('[RD5] a colour whose plus-minus reaches beyond 1000 K has no temperature, and the words say why', () => {
    const { reading } = read(() => [0.4, 0.4, 0.4], { job: { ...job, light: 'unknown' } });
    expect(reading.colour.cctK.value).toBeNull();
    expect(reading.colour.verdict).toMatch(/too wide/);
    expect(reading.colour.uPrime.value).not.toBeNull();
  });

  it('[RD11] notes of HDR refuse the shape, a stripe of 6 % is told with what to do', () => {
    const hdr = read(
      grey(() => 0.4),
      { facts: { ...facts, toneMappingHints: ['HDR rendering'] } },
    ).reading;
    expect(hdr.gates[0]).toMatchObject({ code: 'TONE_MAPPED', level: 'refuse' });
    expect(hdr.evenness.score.value).toBeNull();
    const striped = read(grey((x) => 0.4 * (1 + 0.03 * (x % 5 < 2.5 ? 1 : -1)))).reading;
    expect(striped.gates.map((gate) => gate.code)).toContain('BANDING');
  });
});
