import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { LightKind } from '../../core/contract/light';
import { readSeries, requestOfSeries } from '../../core/contract/series';
import type { Reading } from '../../core/contract/readings';
import { m4, m4Arrangements, t60, t60Arrangements } from '../../samples/render/arrangements';
import { planeView } from '../../samples/render/camera/plane-view';
import { photoBytes } from '../../samples/render/files/photo-file';
import { type Camera, type LitWindow, renderCodes } from '../../samples/render/index';
import type { Lamp } from '../../samples/render/light/lamp';
import { transmission } from '../../samples/render/light/materials';
import { lights, times, tristimulus, type Xyz } from '../../samples/render/light/spectra';
import { lampLights } from '../../samples/render/sets/lamp-lights';
import { darkRoom, off, onStand } from '../../samples/render/sets/set';
import { redPrintFigures } from '../../samples/render/truth/red-print';
import { measureAll } from './measured-samples';

export type Family = Exclude<LightKind, 'unknown'>;

/** Red alone leaves nothing to tell red print by: no figure is relative to the filament. */
export const families = (Object.keys(lampLights) as Family[]).filter((family) => family !== 'red');

/** Places of the lamps behind a window; their light is the same everywhere but for its strength, so the truth of colours is exact. */
export interface LightField {
  readonly windowOf: typeof m4;
  readonly places: readonly (Omit<Lamp, 'light' | 'flux'> & { readonly share: number })[];
  readonly box: LitWindow['box'];
}

/** Behind the meter: a lamp above as it left the factory, one at the side, and two with a diffuser. */
export const lightFields = {
  above: {
    windowOf: m4,
    places: [{ xMm: 19, yMm: 5, zMm: 16, lobe: 0.5, share: 1.7 }],
    box: { diffuseShare: 0.74 },
  },
  'at the side': {
    windowOf: m4,
    places: [{ xMm: 7, yMm: 10, zMm: 11, lobe: 1.5, share: 1 }],
    box: { diffuseShare: 0.72, glowLeftOverRight: 1.35 },
  },
  diffused: {
    windowOf: m4,
    places: [10, 28].map((xMm) => ({ xMm, yMm: 9, zMm: 18, lobe: 1, share: 0.8 })),
    box: { diffuseShare: 0.85, diffuserMm: 2 },
  },
  'behind the scale': {
    windowOf: t60,
    places: [22, 70].map((xMm) => ({ xMm, yMm: 9, zMm: 12, lobe: 1.2, share: 1 })),
    box: { diffuseShare: 0.74 },
  },
} as const satisfies Record<string, LightField>;

export type FieldName = keyof typeof lightFields;

export function lampsBehind(field: FieldName | LightField, family: Family): LitWindow {
  const { windowOf, places, box }: LightField = typeof field === 'string' ? lightFields[field] : field;
  const lamps = places.flatMap(({ share, ...place }) =>
    lampLights[family].map(([light, flux]): Lamp => ({ ...place, light, flux: flux * share })),
  );
  return windowOf(family, lamps, box);
}

/** As the sample photos have it: the lamps' places and their shares of the light, whatever shines there. */
function fieldOf({ lamps, box }: LitWindow, windowOf: LightField['windowOf']): LightField {
  const brightest = Math.max(...lamps.map(({ flux }) => flux));
  const places = lamps.map(({ xMm, yMm, zMm, lobe, tiltDeg, flux }) => ({ xMm, yMm, zMm, lobe, ...(tiltDeg ? { tiltDeg } : {}), share: flux / brightest })); // prettier-ignore
  return { windowOf, places, box };
}

/** Every light field of the sample photos behind a print that has red. A black dial has none. */
export const sampleFields: Readonly<Record<string, LightField>> = {
  'M-4, above': fieldOf(m4Arrangements.filament, m4),
  'T-60, bare': fieldOf(t60Arrangements.warmWhiteBare, t60),
  'T-60, diffuser': fieldOf(t60Arrangements.warmWhiteDiffuser, t60),
  'T-60, shade': fieldOf(t60Arrangements.warmWhiteShade, t60),
  'T-60, moved': fieldOf(t60Arrangements.warmWhiteMoved, t60),
  'T-60, filament': fieldOf(t60Arrangements.filament, t60),
  'M-4, at one side': fieldOf(m4Arrangements.oneSided, m4),
  'set of lamps': lightFields['behind the scale'],
};

/** A photo of the meter at 8.1 px/mm. */
export const ofMeter = (changes: Partial<Camera> = {}): Camera => ({
  ...onStand,
  widthPx: 340,
  heightPx: 336,
  pose: { ...onStand.pose, framedMm: 42, aimMm: [19, 19] },
  ...changes,
});

/** A photo of so many pixels across, filled by the scale: at 400 px its red strokes just span the 4 pixels they need. */
export const ofScale = (widthPx: number, changes: Partial<Camera> = {}): Camera => ({
  ...onStand,
  widthPx,
  heightPx: Math.round(0.3 * widthPx),
  pose: { ...onStand.pose, framedMm: 97 },
  ...changes,
});

/** What is true of a lamp: from its spectrum alone, never from the engine. */
export interface LampTruth {
  /** Through the unprinted scale; Y of all lamps together. */
  readonly xyz: Xyz;
  readonly uPrime: number;
  readonly vPrime: number;
  readonly redness: number;
}

function truthOf(window: LitWindow): LampTruth {
  const xyz = window.lamps
    .map(({ light, flux }) => tristimulus(times(lights[light], transmission.base)).map((value) => value * flux))
    .reduce((sum, one) => sum.map((value, k) => value + one[k])) as unknown as Xyz;
  const sum = xyz[0] + 15 * xyz[1] + 3 * xyz[2];
  return {
    xyz,
    uPrime: (4 * xyz[0]) / sum,
    vPrime: (9 * xyz[1]) / sum,
    redness: redPrintFigures(window).redness,
  };
}

/** A trial, or the reference, beside what is true of it. */
export interface BesideFilament {
  readonly family: Family;
  readonly reading: Reading;
  readonly truth: LampTruth;
}

export interface FilamentSeries {
  readonly field: FieldName | LightField;
  readonly camera: Camera;
  /** The first is the reference; another filament may follow as a trial. */
  readonly families: readonly Family[];
  readonly roomLight?: number;
  readonly room?: 'dark' | 'lit';
  /** Whether the owner knows the camera's curve. */
  readonly encoding?: 'srgb' | 'profile';
  readonly hasLampOff?: boolean;
}

/** Draws and measures lamps in one place after the other, each set beside the first. */
export async function besideFilament(series: FilamentSeries): Promise<BesideFilament[]> {
  const { field, camera, roomLight = darkRoom, room = 'dark', encoding = 'srgb', hasLampOff = false } = series;
  const folder = mkdtempSync(path.join(tmpdir(), 'evendial-lamps-'));
  const draw = async (file: string, window: LitWindow, seed: number) => {
    const scene = { roomLight, windows: [{ window, leftMm: 0, topMm: 0 }] };
    const taken = { ...camera, seed };
    writeFileSync(path.join(folder, file), await photoBytes(renderCodes(scene, taken), taken));
  };
  const { widthMm, heightMm, outline } = lampsBehind(field, 'filament');
  const { toPhoto } = planeView(camera.pose, camera.widthPx, camera.heightPx, camera.focalLength35Mm);
  const corners = (
    [
      [0, 0],
      [widthMm, 0],
      [widthMm, heightMm],
      [0, heightMm],
    ] as const
  ).map(toPhoto);
  try {
    const shots: object[] = [];
    for (const [n, family] of series.families.entries()) {
      await draw(`lamp-${n}`, lampsBehind(field, family), camera.seed + n);
      shots.push({
        photos: [{ file: `lamp-${n}`, encoding }],
        light: family,
        corners: { shown: corners },
        ...(hasLampOff ? { lampOff: { file: 'off', encoding } } : {}),
      });
    }
    if (hasLampOff) await draw('off', off(lampsBehind(field, 'filament')), camera.seed + 90);
    const [reference, ...trials] = shots;
    const text = JSON.stringify({
      format: 'evendial-series',
      version: 1,
      viewingDistanceMm: 500,
      room,
      windows: [{ name: 'shown', widthMm, heightMm, outline, print: 'dark' }],
      reference,
      trials: trials.map((shot, n) => ({ name: `trial ${n + 1}`, ...shot })),
    });
    const request = requestOfSeries(readSeries(text, 'drawn'), (file) => path.join(folder, file));
    const readings = await measureAll(request);
    return readings.map((reading, n) => {
      const family = series.families[n];
      return { family, reading, truth: truthOf(lampsBehind(field, family)) };
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
