import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { PrintKind } from '../../core/contract/light';
import type { MeasureRequest } from '../../core/contract/measure';
import type { Reading } from '../../core/contract/readings';
import { readSeries, requestOfSeries } from '../../core/contract/series';
import { type Camera, type LitWindow, renderPhoto, type WindowTruth } from '../../samples/render/index';
import { measureAll } from './measured-samples';

/** One window alone on a panel, as photographed for a test. */
export interface RenderedWindow {
  readonly name: string;
  readonly window: LitWindow;
  readonly camera: Camera;
  /** What the user says of the print. */
  readonly print: PrintKind;
  /** White paper under the room's light, in the unit of the lamps; left out: night. */
  readonly roomLight?: number;
}

export interface ReadAndTrue {
  readonly reading: Reading;
  readonly truth: WindowTruth;
}

/** Renders each window, measures it end to end with its exact corners, and puts the truth of the render script beside. */
export async function measureRendered(shown: readonly RenderedWindow[]): Promise<Map<string, ReadAndTrue>> {
  const folder = mkdtempSync(path.join(tmpdir(), 'evendial-rendered-'));
  try {
    const truths: WindowTruth[] = [];
    const requests: MeasureRequest[] = [];
    for (const { name, window, camera, print, roomLight = 0.00012 } of shown) {
      const { bytes, truth } = await renderPhoto({ roomLight, windows: [{ window, leftMm: 0, topMm: 0 }] }, camera);
      const photo = `photo-${truths.length}`;
      writeFileSync(path.join(folder, photo), bytes);
      const { widthMm, heightMm, outline } = window;
      const series = {
        format: 'evendial-series',
        version: 1,
        viewingDistanceMm: 500,
        room: 'dark',
        windows: [{ name: 'shown', widthMm, heightMm, outline, print }],
        trials: [{ name, photos: [photo], light: window.light, corners: { shown: truth.windows[0].cornersPx } }],
      };
      requests.push(requestOfSeries(readSeries(JSON.stringify(series), 'drawn'), (file) => path.join(folder, file)));
      truths.push(truth.windows[0]);
    }
    const readings = await measureAll({ ...requests[0], jobs: requests.flatMap(({ jobs }) => jobs) });
    return new Map(readings.map((reading, i) => [reading.name, { reading, truth: truths[i] }]));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
