import { beforeAll, describe, expect, it } from 'vitest';
import type { Reading } from '../../core/contract/readings';
import { t60Arrangements as t60 } from '../../samples/render/arrangements';
import type { Camera } from '../../samples/render/index';
import { samples } from '../../samples/render/sample-list';
import { measureSet, type PhotoSet, type ShownPhoto } from '../support/photo-sets';

const { camera: linearCamera } = samples.find(({ file }) => file === 't60-filament-linear.png')!;
/** The window fills most of the frame, where a lens's corners show. */
const camera: Camera = { ...linearCamera, pose: { ...linearCamera.pose, framedMm: 112, aimMm: [46, 9] } };
const window = t60.filament;

/** A lens that loses up to 40 % towards the frame's corners. */
function withLens(codes: Uint8Array | Uint16Array, { widthPx, heightPx }: Camera): void {
  const reach = (widthPx * widthPx + heightPx * heightPx) / 4;
  for (let i = 0; i < codes.length; i++) {
    const pixel = Math.floor(i / 3);
    const [x, y] = [(pixel % widthPx) + 0.5 - widthPx / 2, Math.floor(pixel / widthPx) + 0.5 - heightPx / 2];
    codes[i] = Math.round(codes[i] * (1 - (0.4 * (x * x + y * y)) / reach));
  }
}

const lit: ShownPhoto = { window, camera, roomLight: 0.00012, change: withLens };
/** A sheet: the same even light everywhere, seen through the same lens. */
const sheetOf = (code: number, changes: Partial<Camera> = {}): ShownPhoto => ({
  ...lit,
  camera: { ...camera, ...changes },
  change: (codes, taken) => {
    codes.fill(code);
    withLens(codes, taken);
  },
});

const sets = {
  'without corner loss': { lit: { window, camera, roomLight: 0.00012 } },
  'no flat field': { lit },
  'flat field': { lit, flatField: sheetOf(40_000) },
  'other aperture': { lit, flatField: sheetOf(40_000, { fNumber: 8 }) },
  overexposed: { lit, flatField: sheetOf(65_535) },
  'too dark': { lit, flatField: sheetOf(400) },
} satisfies Record<string, PhotoSet>;

const readings = new Map<string, Reading>();
beforeAll(async () => {
  for (const [name, set] of Object.entries<PhotoSet>(sets)) {
    readings.set(name, await measureSet({ ...set, encoding: 'linear', room: 'dark' }));
  }
}, 600_000);

const read = (name: keyof typeof sets): Reading => readings.get(name)!;
const codesOf = (name: keyof typeof sets): string[] => read(name).gates.map(({ code }) => code);

describe('[CP3] a flat field', () => {
  it('takes away what the lens did', () => {
    const figures = ({ evenness }: Reading) => [evenness.p5OverP95.value!, evenness.coefficientOfVariation.value!];
    const [ratio, variation] = figures(read('without corner loss'));
    const [lensRatio] = figures(read('no flat field'));
    const [flatRatio, flatVariation] = figures(read('flat field'));
    expect(lensRatio).toBeLessThan(ratio - 0.05);
    // As much as is promised for linear photos, SM12.
    expect(flatRatio).toBeWithin(ratio, 0.02);
    expect(flatVariation).toBeWithin(variation, 0.015);
  });

  it('[GT6] takes the doubt about the lens’s corners away', () => {
    expect(codesOf('no flat field')).toContain('WINDOW_TOO_WIDE');
    expect(codesOf('flat field')).not.toContain('WINDOW_TOO_WIDE');
    const doubt = (name: keyof typeof sets): number => read(name).evenness.score.plusMinus!;
    expect(doubt('flat field')).toBeLessThan(doubt('no flat field'));
  });

  it.each([
    ['other aperture', /f-numbers differ/],
    ['overexposed', /overexposed/],
    ['too dark', /too dark/],
  ] as const)('%s: not used, with the reason', (name, reason) => {
    const [gate] = read(name).gates.filter(({ code }) => code === 'FLAT_FIELD_UNUSABLE');
    expect(gate.message).toMatch(reason);
    expect(read(name).evenness.p5OverP95).toEqual(read('no flat field').evenness.p5OverP95);
  });
});
