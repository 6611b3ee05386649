import { describe, expect, it } from 'vitest';
import { comparePair } from '../../../core/compare/reading-pairs';
import { figure, missing } from '../../../core/contract/figure';
import { madeUpShown, type MadeUp } from './made-up-windows';

const reference = madeUpShown({ name: 'reference', role: 'reference', light: 'filament', uv: [0.2755, 0.5327] });
const pairOf = (a: MadeUp, b: MadeUp) => comparePair(madeUpShown(a), madeUpShown(b), reference);
const bare: MadeUp = { name: 'bare' };
const phone = { model: 'Two' };

describe('comparePair', () => {
  it('[PR1] is b less a: swapping the two flips every sign and no verdict', () => {
    const shade: MadeUp = {
      name: 'shade',
      score: figure(88.7, 2.4),
      index: figure(41.1, 8.2),
      toReference: figure(0.0291, 0.017),
      glowMean: figure(0.17, 0.011),
      camera: { exposureS: 0.2 },
      light: 'cool-white',
    };
    const [there, back] = [pairOf(bare, shade), pairOf(shade, bare)];
    expect([there.a, there.b, back.a, back.b]).toEqual(['bare', 'shade', 'shade', 'bare']);
    for (const of of ['evenness', 'redPrint', 'colour', 'luminance'] as const) {
      const { value, plusMinus } = there[of].difference;
      expect(back[of].difference.value).toBeWithin(-(value ?? NaN), 1e-12);
      expect(back[of].difference.plusMinus).toBeWithin(plusMinus ?? NaN, 1e-12);
      expect(back[of].toldApart).toBe(there[of].toldApart);
    }
    expect(there.evenness.difference.value).toBeWithin(17.5, 1e-9);
    expect(there.luminance.difference.value).toBeWithin(Math.log(0.17 / 0.31), 1e-9);
  });

  it('[PR2] photos taken alike share most of the error of the score, another camera or exposure none', () => {
    const shade: MadeUp = { name: 'shade', score: figure(74.9, 3.1) };
    const alike = pairOf(bare, shade).evenness;
    // u = 1.55 each: root(2 x 1.55^2 x (1 - 0.8)) x 2
    expect(alike.difference.plusMinus).toBeWithin(2 * 1.55 * Math.sqrt(0.4), 1e-9);
    expect(alike.toldApart).toBe(true);
    const others: Required<MadeUp>['camera'][] = [phone, { exposureS: 0.04 }, { whiteBalance: 'auto' }];
    for (const camera of others) {
      const { difference, toldApart } = pairOf(bare, { ...shade, camera }).evenness;
      expect(difference.plusMinus).toBeWithin(2 * 1.55 * Math.SQRT2, 1e-9);
      expect(toldApart).toBe(false);
    }
    expect(pairOf(bare, { ...shade, leftPx: 1700 }).evenness.toldApart).toBe(false);
  });

  it('[PR2] the camera mistakes the red print of one stated kind of light alike, not that of two kinds', () => {
    const duller: MadeUp = { name: 'duller', index: figure(66.1, 12.5) };
    expect(pairOf(bare, duller).redPrint.toldApart).toBe(true);
    expect(pairOf(bare, { ...duller, light: 'cool-white' }).redPrint.toldApart).toBe(false);
    const unknown: MadeUp = { ...duller, light: 'unknown' };
    expect(pairOf({ ...bare, light: 'unknown' }, unknown).redPrint.toldApart).toBe(false);
  });

  it('[PR4] colours of one kind of light, taken alike, are told apart to 0.002 on one side of the reference', () => {
    // On one line from the reference: 0.0152 and 0.0182 away.
    const at = (distance: number): Pick<MadeUp, 'uv' | 'toReference' | 'curveShift'> => ({
      curveShift: { u: 0, v: 0 },
      uv: [0.2755 - distance, 0.5327],
      toReference: figure(distance, 0.012),
    });
    const { difference, toldApart } = pairOf({ ...bare, ...at(0.0152) }, { name: 'b', ...at(0.0182) }).colour;
    expect(difference.value).toBeWithin(0.003, 1e-12);
    expect(difference.plusMinus).toBeWithin(0.002, 1e-9);
    expect(toldApart).toBe(true);
    // An unknown tone curve shifts the one otherwise than the other, here along u' only: sqrt(2 (1 - 0.8)) of 0.004.
    const curved = { curveShift: { u: 0.004, v: -0.001 } };
    const bent = pairOf({ ...bare, ...at(0.0152), ...curved }, { name: 'b', ...at(0.0182), ...curved }).colour;
    expect(bent.difference.plusMinus).toBeWithin(2 * Math.hypot(0.001, Math.sqrt(0.4) * 0.004), 1e-9);
    expect(bent.toldApart).toBe(false);
    // On the other side the camera's error counts twice.
    const other = pairOf(
      { ...bare, ...at(0.0152) },
      { name: 'b', uv: [0.2937, 0.5327], toReference: figure(0.0182, 0.012) },
    );
    expect(other.colour.difference.plusMinus).toBeGreaterThan(0.023);
    expect(other.colour.toldApart).toBe(false);
    // Certain, but less than two steps.
    expect(pairOf({ ...bare, ...at(0.0152) }, { name: 'b', ...at(0.0173) }).colour.toldApart).toBe(false);
  });

  it('[PR5] scaling light and exposure together changes nothing; another camera is compared by a witness patch only', () => {
    const brighter: MadeUp = { name: 'b', glowMean: figure(0.42, 0.03) };
    const plain = pairOf(bare, brighter).luminance;
    expect(plain.difference.value).toBeWithin(Math.log(0.42 / 0.31), 1e-12);
    expect(plain.toldApart).toBe(true);
    // glowMean is exposure-normalised: a photo of half the time shows the same figure.
    const halved = pairOf(bare, { ...brighter, camera: { exposureS: 0.05 } }).luminance;
    expect(halved.difference.value).toBeWithin(Math.log(0.42 / 0.31), 1e-12);
    expect(halved.difference.plusMinus ?? 0).toBeGreaterThan(plain.difference.plusMinus ?? 1);
    expect(pairOf(bare, { ...brighter, camera: phone }).luminance.difference.reason).toMatch(/different cameras/);
    const tied = pairOf({ ...bare, witnessY: 0.3 }, { ...brighter, camera: phone, witnessY: 0.15 }).luminance;
    expect(tied.difference.value).toBeWithin(Math.log((0.42 / 0.31) * 2), 1e-9);
  });

  it('[PR1] a missing figure: no difference, not told apart, and whose fault it is', () => {
    const dark: MadeUp = { name: 'dark', score: missing('too dark'), glowMean: missing('too dark') };
    const { evenness, luminance, redPrint } = pairOf(bare, dark);
    expect(evenness).toEqual({ difference: missing('dark: too dark'), toldApart: false });
    expect(luminance).toEqual({ difference: missing('dark: too dark'), toldApart: false });
    expect(redPrint.difference.value).toBe(0);
  });
});
