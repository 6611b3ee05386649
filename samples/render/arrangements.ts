import type { Lamp } from './light/lamp';
import type { LightName } from './light/spectra';
import type { LitWindow } from './window-scene';

/** Two lamps of one kind behind the scale of the T-60, alike on both sides. */
function pair(light: LightName, flux: number, zMm: number, lobe: number, insetMm = 22): Lamp[] {
  return [insetMm, 92 - insetMm].map((xMm) => ({ light, xMm, yMm: 9, zMm, lobe, flux }));
}

/** The scale of the T-60 with what stands behind it. */
export const t60 = (light: string, lamps: readonly Lamp[], box: LitWindow['box']): LitWindow => ({
  name: 'scale',
  widthMm: 92,
  heightMm: 18,
  outline: { kind: 'rectangle' },
  print: 'larkfield-t60',
  light,
  lamps,
  box,
});

/** What was tried behind the T-60's scale. All numbers are invented. */
export const t60Arrangements = {
  filament: t60('filament', pair('filament', 15.5, 13, 0.6), { diffuseShare: 0.74 }),
  amberBare: t60('narrow-amber', pair('narrow-amber', 4.4, 8, 3), { diffuseShare: 0.7 }),
  warmWhiteBare: t60('warm-white', pair('warm-white', 7.6, 8, 2.5), { diffuseShare: 0.74 }),
  warmWhiteDiffuser: t60('warm-white', pair('warm-white', 16, 10, 1.2), { diffuseShare: 0.74, diffuserMm: 3.5 }),
  warmWhiteShade: t60('warm-white', pair('warm-white', 14, 8, 2.5), {
    diffuseShare: 0.74,
    shades: [22, 70].map((xMm) => ({
      transmission: 0.36,
      xMm,
      yMm: 9,
      halfWidthMm: 4.2,
      halfHeightMm: 4.2,
      softMm: 2.8,
    })),
  }),
  warmWhiteMoved: t60(
    'warm-white',
    [
      { light: 'warm-white', xMm: 16, yMm: 11, zMm: 19, lobe: 1.5, tiltDeg: [18, -10], flux: 20 },
      { light: 'warm-white', xMm: 76, yMm: 11, zMm: 19, lobe: 1.5, tiltDeg: [-18, -10], flux: 20 },
    ],
    { diffuseShare: 0.68 },
  ),
  redGreen: t60(
    'red+green',
    [21, 69].flatMap((xMm): Lamp[] => [
      { light: 'red-led', xMm, yMm: 9, zMm: 11, lobe: 1.8, flux: 4.2 },
      { light: 'green-led', xMm: xMm + 3, yMm: 9, zMm: 11, lobe: 1.8, flux: 5.4 },
    ]),
    { diffuseShare: 0.72, diffuserMm: 2 },
  ),
  coolWhite: t60('cool-white', pair('cool-white', 24, 12, 1.6, 24), { diffuseShare: 0.7 }),
};

/** The round meter of the M-4 with what stands behind it. */
export const m4 = (light: string, lamps: readonly Lamp[], box: LitWindow['box']): LitWindow => ({
  name: 'meter',
  widthMm: 38,
  heightMm: 38,
  // The lower part of the round window lies behind the cover of the pointer's bearing.
  outline: {
    kind: 'ellipse',
    cutMm: [
      [0, 0],
      [38, 0],
      [38, 26.5],
      [0, 26.5],
    ],
  },
  print: 'larkfield-m4',
  light,
  lamps,
  box,
});

/** What was tried behind the M-4's meter. */
export const m4Arrangements = {
  filament: m4('filament', [{ light: 'filament', xMm: 19, yMm: 5, zMm: 16, lobe: 0.5, flux: 26 }], {
    diffuseShare: 0.74,
  }),
  oneSided: m4('warm-white', [{ light: 'warm-white', xMm: 7, yMm: 10, zMm: 11, lobe: 1.5, flux: 14 }], {
    diffuseShare: 0.72,
    glowLeftOverRight: 1.35,
  }),
  amber: m4('narrow-amber', [{ light: 'narrow-amber', xMm: 19, yMm: 6, zMm: 11, lobe: 2, flux: 9.5 }], {
    diffuseShare: 0.72,
  }),
};

const black = (lamps: readonly Lamp[], box: LitWindow['box']): LitWindow => ({
  ...t60('warm-white', lamps, box),
  print: 'larkfield-t60-black',
});

/** The T-60 with a black dial, behind which only figures and lines are open. */
export const blackDialArrangements = {
  even: black(pair('warm-white', 20, 12, 1.2), { diffuseShare: 1 }),
  // A bare lamp close behind 96: twice the light of the rest.
  spot: black([{ light: 'warm-white', xMm: 38.4, yMm: 8, zMm: 8, lobe: 2, flux: 40 }], { diffuseShare: 0.925 }),
};

const small = (window: Pick<LitWindow, 'name' | 'widthMm' | 'heightMm' | 'print' | 'lamps' | 'box'>): LitWindow => ({
  outline: { kind: 'rectangle' },
  light: 'warm-white',
  ...window,
});

/** Two small windows of the T-60: its tuning meter and the word that tells the band. */
export const smallArrangements = {
  tuning: small({
    name: 'tuning',
    widthMm: 16,
    heightMm: 7,
    print: 'larkfield-t60-tuning',
    lamps: [{ light: 'warm-white', xMm: 6, yMm: 3, zMm: 3.5, lobe: 2, flux: 2.4 }],
    box: { diffuseShare: 0.8 },
  }),
  band: small({
    name: 'band',
    widthMm: 12,
    heightMm: 5,
    print: 'larkfield-t60-band',
    lamps: [{ light: 'warm-white', xMm: 2.5, yMm: 2.5, zMm: 5, lobe: 1, flux: 1.6 }],
    box: { diffuseShare: 0.8 },
  }),
};
