import type { Corners } from '../../core/base/points';
import type { Encoding, RoomKind } from '../../core/contract/light';
import type { MeasureJob, PhotoRef, WindowInPhoto } from '../../core/contract/measure';
import type { Reading } from '../../core/contract/readings';
import { measurePhotos } from '../../core/engine';
import type { DecodedPhoto, PhotoFacts } from '../../core/photo/decoded-photo';
import { codesOf } from '../../samples/render/camera/encode';
import { onSensor, withNoise } from '../../samples/render/camera/expose';
import { planeView, type PlaneView } from '../../samples/render/camera/plane-view';
import type { PanelPicture } from '../../samples/render/front-panel';
import type { Camera } from '../../samples/render/index';
import { drawnPanel, type Glass, type Rgb } from './drawn-glass';

/** One photo of a drawn window, and what is changed about it. */
export interface Shot {
  readonly glass?: Partial<Glass>;
  readonly camera?: Partial<Camera>;
  /** Lamps that flicker while the shutter passes: from crest to trough over the mean. */
  readonly stripes?: number;
  /** What the file's notes say instead. */
  readonly notes?: Partial<PhotoFacts>;
  /** Each pixel drawn as a block of so many a side, as if a camera of more pixels had taken it. */
  readonly enlargedBy?: number;
}

/** A photo with what its owner says of it. */
export interface GatePhoto extends Shot {
  readonly room?: RoomKind;
  readonly encoding?: { readonly encoding: Encoding; readonly encodingStated: boolean };
  readonly spec?: Partial<WindowInPhoto['spec']>;
  /** null: not stated. */
  readonly sizeMm?: WindowInPhoto['sizeMm'];
  /** How far outside the window the corners were set, mm; 'search': they were not set. */
  readonly corners?: number | 'search';
  readonly lampOff?: Shot;
  readonly flatField?: Shot;
  readonly printPhoto?: Shot;
  /** Its corners are given, not searched. */
  readonly givesPrintCorners?: boolean;
  /** The first photo of the series that this one belongs to. */
  readonly seriesBegins?: Shot;
}

export const straight: Camera['pose'] = {
  yawDeg: 1.5,
  pitchDeg: -2,
  rollDeg: 0.4,
  framedMm: 64,
  aimMm: [18, 7],
};

/** Seven pixels a mm, an sRGB curve, the glow at a third of full scale, everything set by hand: no gate of the photo itself. */
const usualCamera: Camera = {
  widthPx: 448,
  heightPx: 180,
  focalLength35Mm: 85,
  pose: straight,
  exposureS: 0.1,
  fNumber: 4,
  iso: 100,
  colour: 'colorimetric',
  response: { kind: 'srgb' },
  colourSpace: 'srgb',
  profile: false,
  blurPx: 0.6,
  veil: 0,
  noise: { fullWell: 20_000, readNoise: 6 },
  seed: 1,
  orientation: 1,
  file: { kind: 'jpeg', quality: 90 },
  takenAt: '2026:03:14 21:05:00',
};

/** Light at which the usual camera stores 1. */
const fullScale = 16 / 300;
export const warm: Rgb = [1, 0.72, 0.38];

/** Warm light, a share of full scale from place to place. */
export const glowOf =
  (share: (xMm: number, yMm: number) => number, tint: Rgb = warm): Glass['light'] =>
  (x, y) => {
    const light = share(x, y) * fullScale;
    return [tint[0] * light, tint[1] * light, tint[2] * light];
  };

/** A soft hump of light in the middle. */
const usualGlass: Glass = {
  widthMm: 36,
  heightMm: 14,
  light: glowOf((x, y) => 0.3 + 0.15 * Math.exp(-((x - 18) ** 2 + (y - 7) ** 2) / 120)),
  print: 'dark and red',
  room: 0,
};

const cameraOf = ({ camera }: Shot): Camera => ({ ...usualCamera, ...camera });
const glassOf = ({ glass }: Shot): Glass => {
  const all = { ...usualGlass, ...glass };
  return { ...all, room: all.room * fullScale };
};
function viewOf(shot: Shot): PlaneView {
  const { pose, widthPx, heightPx, focalLength35Mm } = cameraOf(shot);
  return planeView(pose, widthPx, heightPx, focalLength35Mm);
}

/** How often the lamps flicker while the shutter passes the frame. */
const flickers = 20;

/** Panels that were drawn, by their glass; most photos are changes of the camera alone, and drawing takes longest. */
const panels = new Map<string, { readonly light: Glass['light']; readonly panel: PanelPicture }[]>();

function panelOf(shot: Shot, view: PlaneView): PanelPicture {
  const { widthPx, heightPx, pose, focalLength35Mm } = cameraOf(shot);
  const { light, ...glass } = glassOf(shot);
  const key = JSON.stringify([glass, widthPx, heightPx, pose, focalLength35Mm]);
  const alike = panels.get(key) ?? [];
  const drawn = alike.find((one) => one.light === light)?.panel;
  if (drawn) return drawn;
  const panel = drawnPanel(glassOf(shot), view, widthPx, heightPx);
  panels.set(key, [...alike, { light, panel }]);
  return panel;
}

function codesOfShot(shot: Shot): Uint8Array | Uint16Array {
  const camera = cameraOf(shot);
  const { widthPx, heightPx } = camera;
  const view = viewOf(shot);
  const light = onSensor(panelOf(shot, view), view, camera);
  const share = (shot.stripes ?? 0) / 2;
  for (const channel of light) {
    channel.forEach((value, at) => {
      const turns = (flickers * Math.floor(at / widthPx)) / heightPx;
      channel[at] = value * (1 + share * Math.cos(2 * Math.PI * turns));
    });
  }
  return codesOf(withNoise(light, camera), camera, 8);
}

function enlarged(codes: Uint8Array | Uint16Array, widthPx: number, by: number): Uint8Array | Uint16Array {
  if (by === 1) return codes;
  const [width, height] = [widthPx * by, (codes.length / 3 / widthPx) * by];
  const drawn = new Uint8Array(3 * width * height);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const from = 3 * (Math.floor(row / by) * widthPx + Math.floor(column / by));
      const to = 3 * (row * width + column);
      for (let channel = 0; channel < 3; channel++) drawn[to + channel] = codes[from + channel];
    }
  }
  return drawn;
}

function decodedShot(shot: Shot, sha256: string): DecodedPhoto {
  const { enlargedBy = 1 } = shot;
  const { exposureS, fNumber, iso, focalLength35Mm, ...drawn } = cameraOf(shot);
  const [widthPx, heightPx] = [drawn.widthPx * enlargedBy, drawn.heightPx * enlargedBy];
  return {
    facts: {
      sha256,
      widthPx,
      heightPx,
      bitDepth: 8,
      format: 'jpeg',
      camera: { whiteBalance: 'manual', exposureS, fNumber, iso, focalLengthMm: 24 },
      focalLength35Mm,
      exifSaysSrgb: true,
      toneMappingHints: [],
      ...shot.notes,
    },
    region: { column: 0, row: 0, width: widthPx, height: heightPx },
    codes: enlarged(codesOfShot(shot), drawn.widthPx, enlargedBy),
    linear: null,
    icc: null,
    profileName: null,
    decodeMs: 0,
  };
}

function cornersOf(shot: Shot, outsideMm: number): Corners {
  const { widthMm, heightMm } = glassOf(shot);
  const { toPhoto } = viewOf(shot);
  const at = (x: number, y: number) => {
    const [column, row] = toPhoto([x, y]).map((at) => (at + 0.5) * (shot.enlargedBy ?? 1) - 0.5);
    return { column, row };
  };
  const out = outsideMm;
  return [at(-out, -out), at(widthMm + out, -out), at(widthMm + out, heightMm + out), at(-out, heightMm + out)];
}

function windowInPhoto(photo: GatePhoto, shot: Shot): WindowInPhoto {
  const { widthMm, heightMm } = glassOf(shot);
  const none = { leaveOut: [], paintedRed: [], paintedDark: [] };
  return {
    spec: { name: 'scale', shape: { kind: 'rectangle' }, print: 'dark', ...none, ...photo.spec },
    sizeMm: photo.sizeMm === undefined ? { widthMm, heightMm } : photo.sizeMm,
    corners: photo.corners === 'search' ? null : cornersOf(shot, photo.corners ?? 0),
  };
}

/** Draws a photo and the photos that go with it, and measures it with the engine; no file is written. */
export async function readGatePhoto(photo: GatePhoto): Promise<Reading> {
  const shots: Shot[] = [];
  const refOf = (shot: Shot): PhotoRef => ({
    file: `photo-${shots.push(shot)}.jpg`,
    path: String(shots.length - 1),
    ...(photo.encoding ?? { encoding: 'srgb', encodingStated: true }),
    exposure: {},
  });
  const job = (
    shot: Shot,
    beside: Pick<GatePhoto, 'lampOff' | 'flatField' | 'printPhoto' | 'givesPrintCorners'>,
  ): MeasureJob => ({
    role: 'trial',
    name: `try ${shots.length + 1}`,
    photo: refOf(shot),
    light: 'warm-white',
    windows: [windowInPhoto(photo, shot)],
    ...(beside.lampOff && { lampOff: refOf(beside.lampOff) }),
    ...(beside.flatField && { flatField: refOf(beside.flatField) }),
    ...(beside.printPhoto && { printPhoto: refOf(beside.printPhoto) }),
    ...(beside.printPhoto && beside.givesPrintCorners && { printPhotoCorners: cornersOf(beside.printPhoto, 0) }),
  });
  const jobs = [...(photo.seriesBegins ? [job(photo.seriesBegins, {})] : []), job(photo, photo)];
  const { windows } = await measurePhotos(
    { jobs, room: photo.room ?? 'dark', viewingDistanceMm: 500, isSeries: photo.seriesBegins !== undefined },
    { decodePhoto: (at) => Promise.resolve(decodedShot(shots[Number(at)], at.padStart(64, '0'))), nowMs: () => 0 },
  );
  const last = windows[windows.length - 1];
  if ('failed' in last) throw new Error(`${last.failed.file}: ${last.failed.error.message}`);
  return last.reading;
}
