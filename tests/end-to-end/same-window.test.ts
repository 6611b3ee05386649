import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Reading } from '../../core/contract/readings';
import { readSeries, requestOfSeries } from '../../core/contract/series';
import { planeView } from '../../samples/render/camera/plane-view';
import { photoBytes } from '../../samples/render/files/photo-file';
import { type Camera, renderCodes } from '../../samples/render/index';
import { samples } from '../../samples/render/sample-list';
import { photoTruth } from '../../samples/render/truth-file';
import { measureAll } from '../support/measured-samples';
import { isLongRun, sampled } from '../support/long-run';

/** One window behind one light of middling evenness: the same in every photo below. */
const { scene, camera: sampleCamera } = samples.find(({ file }) => file === 't60-warm-white-diffuser.jpg')!;

/** A camera without errors of its own in colour and tone, so that only what is varied can move the score. */
const baseCamera: Camera = {
  ...sampleCamera,
  // Small: drawing the photos takes most of the time.
  widthPx: 900,
  heightPx: 225,
  colour: 'colorimetric',
  response: { kind: 'srgb' },
  profile: true,
  file: { kind: 'jpeg', quality: 90 },
};

interface Photo {
  readonly rule: string;
  readonly name: string;
  readonly format: 'jpeg' | 'png' | 'tiff' | 'webp' | 'avif';
  readonly camera: Camera;
  /** How far the score may be from that of the base photo, points. */
  readonly scoreWithin: number;
  /** What the user states; left out: nothing, the file's profile tells. */
  readonly encoding?: 'linear';
  /** Another file made of the same upright codes; left out: the file that the camera writes. */
  readonly writeAs?: (codes: Sharp) => Sharp;
}

// Place, size, exposure and file change nothing that the score describes: 1 point, half of what counts as a difference
// between two tries (EV6).
function same(rule: string, name: string, changes: Partial<Camera>, more: Partial<Photo> = {}): Photo {
  const camera = { ...baseCamera, ...changes };
  return { rule, name, camera, format: camera.file.kind, scoreWithin: 1, ...more };
}

// Noise adds unevenness that is not there, and blur takes some away that is: 2 points, just what counts as a difference.
const disturbed = (name: string, changes: Partial<Camera>): Photo => same('UN1', name, changes, { scoreWithin: 2 });

function posed(name: string, changes: Partial<Camera['pose']>): Photo {
  return same('WN1', name, { pose: { ...baseCamera.pose, yawDeg: 0, pitchDeg: 0, rollDeg: 0, ...changes } });
}

const png8: Camera['file'] = { kind: 'png', bits: 8 };

/** What turns an upright picture into the stored one that an orientation describes. @source Exif 2.32, tag 274 */
const storedFor: readonly (readonly [number, (upright: Sharp) => Sharp])[] = [
  [1, (upright) => upright],
  [2, (upright) => upright.flop()],
  [3, (upright) => upright.rotate(180)],
  [4, (upright) => upright.flip()],
  [5, (upright) => upright.rotate(270).flop()],
  [6, (upright) => upright.rotate(270)],
  [7, (upright) => upright.rotate(90).flop()],
  [8, (upright) => upright.rotate(90)],
];

/** Each way of laying a photo is tried by itself in the tests of the decoder. */
const turned = sampled(storedFor, 3).map(([orientation, turn]) =>
  same(
    'PX8',
    `orientation ${orientation}`,
    { file: png8 },
    { writeAs: (codes) => turn(codes).withMetadata({ orientation }).png() },
  ),
);

const linearTiff: Partial<Camera> = { response: { kind: 'linear' }, file: { kind: 'tiff', bits: 16 } };

/** Milder than what every run tries, or more of its kind: in the long run only. */
const furtherPhotos: readonly Photo[] = [
  posed('yaw 30 degrees', { yawDeg: 30 }),
  posed('pitch 15 degrees', { pitchDeg: 15 }),
  posed('roll 5 degrees', { rollDeg: 5 }),
  same('EV3', 'half the exposure', { exposureS: baseCamera.exposureS / 2 }),
  same('WN3', '2400 pixels wide', { widthPx: 2400, heightPx: 600 }),
  same('PX1', 'JPEG of quality 95', { file: { kind: 'jpeg', quality: 95 } }),
];

/** Those of one view first, which need be drawn only once. */
const photos: readonly Photo[] = [
  same('EV3', 'a quarter of the exposure', { exposureS: baseCamera.exposureS / 4 }),
  same('PX1', 'JPEG of quality 75', { file: { kind: 'jpeg', quality: 75 } }),
  same('PX1', 'PNG of 16 bits', { file: { kind: 'png', bits: 16 } }),
  same('PX1', 'TIFF of 16 bits', { file: { kind: 'tiff', bits: 16 } }),
  same('PX1', 'WebP', {}, { format: 'webp', writeAs: (codes) => codes.webp({ nearLossless: true, quality: 60 }) }),
  same(
    'PX1',
    'AVIF',
    {},
    { format: 'avif', writeAs: (codes) => codes.avif({ quality: 90, chromaSubsampling: '4:4:4', effort: 2 }) },
  ),
  same('PX2', 'no profile', { profile: false }),
  same('PX2', 'wide colour space', { colourSpace: 'wide' }),
  same('PX2', 'linear TIFF of 16 bits', linearTiff, { encoding: 'linear' }),
  same('PX8', 'JPEG of a camera turned a quarter', { orientation: 6 }),
  ...turned,
  // 250 electrons of a full pixel: a phone in the dark.
  disturbed('noise of ISO 1600', {
    noise: { fullWell: 4000, readNoise: 4 },
    iso: 1600,
    exposureS: baseCamera.exposureS / 16,
  }),
  disturbed('blur of 2 pixels', { blurPx: 2 }),
  same('WN3', '1600 pixels wide', { widthPx: 1600, heightPx: 400 }),
  posed('straight in front', {}),
  posed('yaw -30 degrees', { yawDeg: -30 }),
  posed('yaw 30, pitch 15, roll 5 degrees', { yawDeg: 30, pitchDeg: 15, rollDeg: 5 }),
  ...(isLongRun ? furtherPhotos : []),
];

const folder = mkdtempSync(path.join(tmpdir(), 'evendial-same-window-'));
const rendered = new Map<string, Uint8Array | Uint16Array>();

/** Rendering takes most of the time, and many files hold the same codes. */
function codesOf(camera: Camera): Uint8Array | Uint16Array {
  const bits = camera.file.kind === 'jpeg' ? 8 : camera.file.bits;
  const key = JSON.stringify({ ...camera, file: bits, profile: null, orientation: null });
  const codes = rendered.get(key) ?? renderCodes(scene, camera);
  rendered.set(key, codes);
  return codes;
}

async function bytesOf({ camera, writeAs }: Photo): Promise<Buffer> {
  const codes = codesOf(camera);
  if (!writeAs) return photoBytes(codes, camera);
  const { widthPx: width, heightPx: height } = camera;
  return writeAs(sharp(codes, { raw: { width, height, channels: 3 } })).toBuffer();
}

const [{ window, leftMm, topMm }] = scene.windows;

/** Exact corners in upright pixels, as the truth files have them. */
function cornersOf({ pose, widthPx, heightPx, focalLength35Mm }: Camera): (readonly [number, number])[] {
  const { toPhoto } = planeView(pose, widthPx, heightPx, focalLength35Mm);
  const [rightMm, bottomMm] = [leftMm + window.widthMm, topMm + window.heightMm];
  const places = [
    [leftMm, topMm],
    [rightMm, topMm],
    [rightMm, bottomMm],
    [leftMm, bottomMm],
  ] as const;
  return places.map(toPhoto);
}

/** All photos as trials of one series. Files have no telling ending: what they are is told by their content. */
async function measureEach(shown: readonly Photo[]): Promise<Reading[]> {
  const { name, widthMm, heightMm, outline } = window;
  const series = {
    format: 'evendial-series',
    version: 1,
    viewingDistanceMm: 500,
    room: 'dark',
    windows: [{ name, widthMm, heightMm, outline, print: 'dark' }],
    trials: shown.map((photo, at) => ({
      name: photo.name,
      photos: [{ file: `photo-${at}`, encoding: photo.encoding ?? 'profile' }],
      light: window.light,
      corners: { [name]: cornersOf(photo.camera) },
    })),
  };
  for (const [at, photo] of shown.entries()) writeFileSync(path.join(folder, `photo-${at}`), await bytesOf(photo));
  const request = requestOfSeries(readSeries(JSON.stringify(series), 'drawn'), (file) => path.join(folder, file));
  // Each by itself: as a series, all would be laid on the first by its print.
  return measureAll({ ...request, isSeries: false });
}

let base: Reading;
const readings = new Map<string, Reading>();

const readingOf = (name: string): Reading => {
  const reading = readings.get(name);
  if (!reading) throw new RangeError(`no photo is called ${name}`);
  return reading;
};
const scoreOf = ({ evenness }: Reading): number => evenness.score.value ?? NaN;

beforeAll(async () => {
  const [first, ...others] = await measureEach([same('EV1', 'base', {}), ...photos]);
  base = first;
  others.forEach((reading) => readings.set(reading.name, reading));
}, 600_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('[SM13] the same window, photographed otherwise', () => {
  it('[EV1] the base photo is of middling evenness and has the score of the truth', () => {
    const [truth] = photoTruth(scene, baseCamera).windows;
    expect(truth.cornersPx).toEqual(cornersOf(baseCamera));
    expect(truth.figures.score).toBeWithin(60, 5);
    // Print hides part of the light, and 8 bits are in it: as much as the promise for linear photos, SM12.
    expect(scoreOf(base)).toBeWithin(truth.figures.score, 1);
  });

  const titled = photos.map((photo) => [`[${photo.rule}] ${photo.name}`, photo.scoreWithin, photo] as const);
  it.each(titled)('%s: the score within %i, the colour unchanged', (_title, _points, photo) => {
    const reading = readingOf(photo.name);
    const [{ format, widthPx, heightPx }] = reading.photos;
    expect({ format, widthPx, heightPx }).toEqual({
      format: photo.format,
      widthPx: photo.camera.widthPx,
      heightPx: photo.camera.heightPx,
    });
    expect(scoreOf(reading)).toBeWithin(scoreOf(base), photo.scoreWithin);
    // The smallest step that counts as a difference of lamps is 0.0011. @source CIE TN 001:2014
    expect(reading.colour.uPrime.value).toBeWithin(base.colour.uPrime.value!, 0.001);
    expect(reading.colour.vPrime.value).toBeWithin(base.colour.vPrime.value!, 0.001);
  });

  it('[PX1, PX8] files that hold the same codes give the same figures to the last digit', () => {
    const figuresOf = (name: string): unknown => [readingOf(name).evenness, readingOf(name).colour];
    expect(figuresOf('TIFF of 16 bits')).toEqual(figuresOf('PNG of 16 bits'));
    for (const { name } of turned) expect(figuresOf(name), name).toEqual(figuresOf('orientation 1'));
  });
});
