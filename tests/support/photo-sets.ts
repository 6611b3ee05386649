import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { MeasuredWindow } from '../../core/contract/measure';
import type { Reading } from '../../core/contract/readings';
import type { StoredResponse } from '../../core/contract/response';
import { readSeries, requestOfSeries } from '../../core/contract/series';
import { planeView } from '../../samples/render/camera/plane-view';
import { photoBytes } from '../../samples/render/files/photo-file';
import { type Camera, type LitWindow, renderCodes } from '../../samples/render/index';
import { measureWindows } from './measured-samples';

/** One photo of a window on a panel: lit, or with its lamps off. */
export interface ShownPhoto {
  readonly window: LitWindow;
  readonly camera: Camera;
  readonly roomLight: number;
  /** Codes that are drawn already; left out: they are rendered. */
  readonly drawn?: () => Uint8Array | Uint16Array;
  /** What becomes of the upright codes before they are written; left out: nothing. */
  readonly change?: (codes: Uint8Array | Uint16Array, camera: Camera) => void;
  /** The file's bytes before they are written; left out: as rendered. */
  readonly edit?: (bytes: Buffer) => Promise<Buffer>;
}

/** A lit photo and what is measured with it. */
export interface PhotoSet {
  readonly lit: ShownPhoto;
  /** Further exposures of the same scene: one series with `lit`. */
  readonly exposures?: readonly ShownPhoto[];
  /** A stored tone curve to read it with. */
  readonly response?: StoredResponse;
  readonly lampOff?: ShownPhoto;
  readonly flatField?: ShownPhoto;
  readonly room?: 'dark' | 'lit' | 'unknown';
  /** Stated for the lit photo and its helpers. */
  readonly encoding?: 'linear' | 'srgb';
}

/** The same window with its lamps off. */
export const lampsOff = (window: LitWindow): LitWindow => ({ ...window, lamps: [] });

/** Exact corners of the window, upright pixels. */
function cornersOf({ window, camera }: ShownPhoto): (readonly [number, number])[] {
  const { toPhoto } = planeView(camera.pose, camera.widthPx, camera.heightPx, camera.focalLength35Mm);
  const { widthMm: right, heightMm: bottom } = window;
  return (
    [
      [0, 0],
      [right, 0],
      [right, bottom],
      [0, bottom],
    ] as const
  ).map(toPhoto);
}

/** Rendering takes most of the time, and sets share photos. */
const rendered = new Map<string, Uint8Array | Uint16Array>();

function codesOf({ window, camera, roomLight, drawn }: ShownPhoto): Uint8Array | Uint16Array {
  if (drawn) return drawn();
  const key = JSON.stringify([window, camera, roomLight]);
  const codes = rendered.get(key) ?? renderCodes({ roomLight, windows: [{ window, leftMm: 0, topMm: 0 }] }, camera);
  rendered.set(key, codes);
  return codes.slice();
}

async function bytesOf(photo: ShownPhoto): Promise<Buffer> {
  const { camera, change, edit } = photo;
  const codes = codesOf(photo);
  change?.(codes, camera);
  const bytes = await photoBytes(codes, camera);
  return edit ? edit(bytes) : bytes;
}

/** Renders the photos of a set and measures the lit one end to end, with its exact corners. */
export async function measureSet(set: PhotoSet): Promise<Reading> {
  return (await measureSetWhole(set)).reading;
}

/** The same, with what the engine tells beside the reading. */
export async function measureSetWhole(set: PhotoSet): Promise<MeasuredWindow> {
  const { lit, exposures = [], lampOff, flatField, room, encoding } = set;
  const further = exposures.map((photo, i) => [`lit${i + 2}`, photo] as const);
  const folder = mkdtempSync(path.join(tmpdir(), 'evendial-set-'));
  try {
    for (const [name, photo] of Object.entries({ lit, ...Object.fromEntries(further), lampOff, flatField })) {
      if (photo) writeFileSync(path.join(folder, name), await bytesOf(photo));
    }
    const { widthMm, heightMm, outline } = lit.window;
    const series = {
      format: 'evendial-series',
      version: 1,
      room: room ?? 'unknown',
      windows: [{ name: 'shown', widthMm, heightMm, outline, print: lit.window.print === 'none' ? 'none' : 'dark' }],
      trials: [
        {
          name: 'shown',
          photos: ['lit', ...further.map(([file]) => file)].map((file) => ({
            file,
            ...(encoding ? { encoding } : {}),
          })),
          light: lit.window.light,
          corners: { shown: cornersOf(lit) },
          ...(lampOff ? { lampOff: 'lampOff' } : {}),
          ...(flatField ? { flatField: 'flatField' } : {}),
        },
      ],
    };
    const request = requestOfSeries(readSeries(JSON.stringify(series), 'drawn'), (file) => path.join(folder, file));
    const { response } = set;
    const jobs = response ? request.jobs.map((job) => ({ ...job, response })) : request.jobs;
    const [window] = await measureWindows({ ...request, jobs });
    return window;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
