import { describe, expect, it } from 'vitest';
import { colourAgainst, deltaE00ToGlow } from '../../../core/compare/against-reference/colour';
import { colourToReferenceWords } from '../../../core/compare/against-reference/colour-words';
import { evennessAgainst } from '../../../core/compare/against-reference/evenness';
import { referenceGates } from '../../../core/compare/against-reference/gates';
import { luminanceAgainst } from '../../../core/compare/against-reference/luminance';
import { photoPair, type PhotoPair } from '../../../core/compare/against-reference/photo-pair';
import { redPrintAgainst } from '../../../core/compare/against-reference/red-print';
import type { ShownWindow } from '../../../core/compare/find-matches';
import { figure, missing } from '../../../core/contract/figure';
import type { RedPrintEntry } from '../../../core/contract/readings';
import { madeUpShown, type MadeUp } from './made-up-windows';

const filament: MadeUp = { name: 'filament', role: 'reference', light: 'filament', score: figure(80, 3) };
const led: MadeUp = { name: 'LED', light: 'warm-white', score: figure(60, 4) };

function withRed(window: ShownWindow, changes: Partial<RedPrintEntry>): ShownWindow {
  return { ...window, reading: { ...window.reading, redPrint: { ...window.reading.redPrint, ...changes } } };
}

function pairOf(trial: Partial<MadeUp> = {}, reference: Partial<MadeUp> = {}): PhotoPair {
  return photoPair(madeUpShown({ ...led, ...trial }), madeUpShown({ ...filament, ...reference }));
}

describe('evennessAgainst', () => {
  it('[RF1] is the score less the reference score; photos taken alike share 0.8 of their error', () => {
    const { toReference, words } = evennessAgainst(pairOf());
    expect(toReference.value).toBeWithin(-20, 1e-9);
    // u 2 and 1.5 points, k = 2.
    expect(toReference.plusMinus).toBeWithin(2 * Math.sqrt(4 + 2.25 - 1.6 * 3), 1e-9);
    expect(words).toBe('clearly less even than with the filament');
    expect(evennessAgainst(pairOf({ camera: { iso: 200 } })).toReference.plusMinus).toBeWithin(5, 1e-9);
  });

  it('[RF1] what is not told apart says so, and a refused reference gives its reason', () => {
    expect(evennessAgainst(pairOf({ score: figure(79, 6) })).words).toBe(
      'as even as with the filament (within the plus-minus)',
    );
    const refused = evennessAgainst(pairOf({}, { score: missing('overexposed') }));
    expect(refused.toReference).toEqual(missing('the reference: overexposed'));
    expect(refused.words).toBe(madeUpShown(led).reading.evenness.words);
  });
});

describe('the reference beside itself', () => {
  const own = madeUpShown(filament);
  const pair = photoPair(own, own);

  it('[RF1, RP12] has the index 100 and the distance 0, exactly', () => {
    expect(redPrintAgainst(pair).index).toEqual(figure(100, 0));
    expect(colourAgainst(pair).toReferenceUv).toEqual(figure(0, 0));
    expect(colourAgainst(pair).toReferenceDeltaE00).toEqual(figure(0, 0));
    expect(luminanceAgainst(pair).ofReference).toEqual(figure(1, 0));
    expect(evennessAgainst(pair).toReference).toEqual(figure(0, 0));
  });

  it('[RP12] another photo of the same gives the same values, with a plus-minus', () => {
    const again = photoPair(madeUpShown({ ...filament, name: 'again', role: 'trial' }), own);
    expect(redPrintAgainst(again).index.value).toBeWithin(100, 1e-9);
    expect(redPrintAgainst(again).index.plusMinus).toBeGreaterThan(8); // the camera alone: 4 % twice
    expect(colourAgainst(again).toReferenceUv.value).toBe(0);
    expect(colourAgainst(again).toReferenceDeltaE00.value).toBe(0);
  });
});

describe('redPrintAgainst', () => {
  const pair = (redness: number, contrast: number, light: MadeUp['light'] = 'warm-white'): PhotoPair => {
    const red = { redness: figure(redness, 0.01), luminanceContrast: figure(contrast, 0.05) };
    const base = { redness: figure(0.15, 0.01), luminanceContrast: figure(-0.7, 0.05) };
    return photoPair(withRed(madeUpShown({ ...led, light }), red), withRed(madeUpShown(filament), base));
  };

  it('[RP12] is 100 R / R_ref with words; lost red says whether the mark is still seen', () => {
    expect(redPrintAgainst(pair(0.12, -0.7)).index.value).toBeWithin(80, 1e-9);
    expect(redPrintAgainst(pair(0.12, -0.7))).toMatchObject({
      indexAgainst: 'reference',
      words: 'as red as with the filament',
    });
    expect(redPrintAgainst(pair(0.2, -0.6)).words).toBe('redder than with the filament');
    expect(redPrintAgainst(pair(0.015, -0.7)).words).toBe('red lost, still seen as a dark mark');
    expect(redPrintAgainst(pair(0.003, -0.2)).words).toBe('red lost, and the mark all but vanishes');
    expect(redPrintAgainst(pair(-0.02, -0.7)).index.value).toBe(0);
    expect(redPrintAgainst(pair(0.12, -0.35)).darkContrastKept.value).toBeWithin(50, 1e-9);
  });

  it('[RP12] light that cameras show worse has a wider plus-minus', () => {
    const plusMinus = (['filament', 'warm-white', 'cool-white', 'red+green', 'unknown'] as const).map(
      (light) => redPrintAgainst(pair(0.12, -0.7, light)).index.plusMinus!,
    );
    expect([...plusMinus].sort((a, b) => a - b)).toEqual(plusMinus);
  });

  it('[RP12] a reference that is hardly red gives no index: the typical one stays', () => {
    const pale = withRed(madeUpShown(filament), { redness: figure(0.04, 0.01) });
    const entry = redPrintAgainst(photoPair(madeUpShown(led), pale));
    expect(entry.darkContrastKept.reason).toMatch(/hardly red in the reference/);
    expect(entry.index).toEqual(madeUpShown(led).reading.redPrint.index);
  });
});

describe('luminanceAgainst', () => {
  it('[RF3] is the ratio of the exposure-normalised means, by the exposures', () => {
    const entry = luminanceAgainst(pairOf({ glowMean: figure(0.2, 0.01) }, { glowMean: figure(0.4, 0.01) }));
    expect(entry.ofReference.value).toBeWithin(0.5, 1e-9);
    const other = luminanceAgainst(pairOf({ camera: { model: 'Two' } }));
    expect(other.ofReference.reason).toMatch(/camera or focal length/);
  });
});

describe('colourAgainst', () => {
  it('[RF4] is the distance in u, v; white balance that differs gives none, with the reason', () => {
    const pair = pairOf({ uv: [0.262, 0.525] }, { uv: [0.262, 0.521] });
    expect(colourAgainst(pair).toReferenceUv.value).toBeWithin(0.004, 1e-9);
    const auto = colourAgainst(pairOf({ camera: { whiteBalance: 'auto' } }));
    expect(auto.toReferenceUv.reason).toMatch(/white balance/);
    expect(auto.uPrime.value).not.toBeNull();
  });

  it('[RF4] two automatic photos are compared with a wider plus-minus', () => {
    const auto = { camera: { whiteBalance: 'auto' }, basis: { whiteBalance: 'auto' } } as const;
    const [narrow, wide] = [pairOf(), pairOf(auto, auto)].map((pair) => colourAgainst(pair).toReferenceUv.plusMinus!);
    expect(wide).toBeGreaterThan(narrow);
    expect(wide).toBeGreaterThan(0.04);
  });

  it("[RF4, RF5] what the file cuts short widens white light's distance, and every light's CIEDE2000", () => {
    const of = (light: NonNullable<MadeUp['light']>, outOfGamut: boolean) => {
      const window = madeUpShown({ ...led, light, uv: [0.29, 0.54] });
      const colour = { ...window.reading.colour, outOfGamut };
      const pair = photoPair({ ...window, reading: { ...window.reading, colour } }, madeUpShown(filament));
      return colourAgainst(pair);
    };
    // Amber light is always cut short by sRGB: the doubt of its kind was found so.
    expect(of('phosphor-amber', true).toReferenceUv).toEqual(of('phosphor-amber', false).toReferenceUv);
    expect(of('warm-white', true).toReferenceUv.plusMinus).toBeGreaterThanOrEqual(0.057);
    const [whole, cut] = [false, true].map((is) => of('phosphor-amber', is).toReferenceDeltaE00.plusMinus!);
    expect(cut).toBeGreaterThan(1.3 * whole);
  });

  it('[RF5] CIEDE2000 is 0 for one colour, and sees neither which is darker nor the scale', () => {
    const glow = { uPrime: 0.2776, vPrime: 0.5329 };
    expect(deltaE00ToGlow(glow, glow)).toBe(0);
    expect(deltaE00ToGlow({ uPrime: 0.2776, vPrime: 0.5319 }, glow)).toBeGreaterThan(0.5);
  });

  it('[RF6] steps are named for filaments alone', () => {
    const at = { of: { uPrime: 0.2796, vPrime: 0.5329 }, reference: { uPrime: 0.2776, vPrime: 0.5329 } };
    const words = (light: MadeUp['light'], plusMinus: number) =>
      colourToReferenceWords({
        ...at,
        plusMinus,
        lights: [light ?? 'unknown', 'filament'],
        outOfGamut: [false, false],
      });
    expect(words('filament', 0.001)).toBe("close to the filament's colour, about 2 steps");
    expect(words('warm-white', 0.012)).toBe('not told apart from the filament; not certifiable below 10 steps');
    expect(words('narrow-amber', 0.001)).toBe('redder and more saturated than the filament');
  });

  it("[RF6] outside the file's colour space no distance is named, and what was cut short is not called less saturated", () => {
    const [pale, deep] = [
      { uPrime: 0.2776, vPrime: 0.5229 },
      { uPrime: 0.2776, vPrime: 0.5429 },
    ];
    const words = (of: typeof pale, reference: typeof pale, outOfGamut: readonly [boolean, boolean]) =>
      colourToReferenceWords({ of, reference, plusMinus: 0.001, lights: ['narrow-amber', 'filament'], outOfGamut });
    expect(words(deep, pale, [true, false])).toBe(
      "more saturated than the filament; the glow lies outside the photo's colour space",
    );
    expect(words(pale, deep, [true, false])).toMatch(/^not told apart from the filament; the glow lies outside/);
    expect(words(deep, pale, [false, true])).toMatch(/^not told apart/);
    expect(words(pale, deep, [false, true])).toMatch(/^less saturated than the filament; /);
  });
});

describe('referenceGates', () => {
  const codes = (pair: PhotoPair): string[] => referenceGates(pair).map(({ code, level }) => `${level}:${code}`);

  it('[RF2] photos taken alike raise none; each difference has its own', () => {
    expect(codes(pairOf())).toEqual([]);
    expect(codes(pairOf({ camera: { iso: 200 } }))).toEqual(['warn:EXPOSURE_DIFFERS']);
    expect(codes(pairOf({ camera: { iso: 125 } }))).toEqual([]);
    expect(codes(pairOf({ camera: { model: 'Two' } }))).toEqual(['warn:LENS_CHANGED']);
    expect(codes(pairOf({ camera: { focalLengthMm: 50 } }, { camera: { focalLengthMm: 35 } }))).toEqual([
      'warn:LENS_CHANGED',
    ]);
    expect(codes(pairOf({ camera: { whiteBalance: 'auto' } }))).toEqual(['warn:WHITE_BALANCE_DIFFERS']);
    const pair = pairOf();
    const outline = { ...pair.trial.reading.outline, pxPerMm: 1.3 * pair.reference.reading.outline.pxPerMm };
    const larger = { ...pair.trial, reading: { ...pair.trial.reading, outline } };
    expect(codes(photoPair(larger, pair.reference))).toEqual(['warn:SCALE_DIFFERS']);
  });

  it('[RF2] two windows of one photo raise none', () => {
    expect(codes(pairOf({ photo: 'one', leftPx: 2000 }, { photo: 'one' }))).toEqual([]);
  });
});
