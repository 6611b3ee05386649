import { readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { LinearPhoto } from '../../../core/base/linear-photo';
import type { Corners } from '../../../core/base/points';
import type { OutlineShape } from '../../../core/contract/outline';
import { createDecoder } from '../../../core/node/decode-process';
import { linearisePhoto } from '../../../core/photo/linearise';
import { refinedCorners, registerWindow } from '../../../core/registration/register-window';
import { registrationImageOf } from '../../../core/registration/registration-image';
import { homographyFromCorners } from '../../../core/window/homography';
import type { PhotoTruth, WindowTruth } from '../../../samples/render/truth-file';
import { movedCorners, placeError } from './drawn-scales';

const folder = path.resolve('samples/photos');
const decoder = createDecoder();
afterAll(() => decoder.close());

interface Sample {
  readonly linear: LinearPhoto;
  readonly truth: WindowTruth;
  readonly corners: Corners;
}

async function sampleOf(file: string, windowName: string): Promise<Sample> {
  const { windows, photo } = JSON.parse(readFileSync(path.join(folder, `${file}.truth.json`), 'utf8')) as PhotoTruth;
  const decoded = await decoder.decode(path.join(folder, file), { regionPx: null });
  const truth = windows.find(({ name }) => name === windowName)!;
  const corners = truth.cornersPx.map(([column, row]) => ({ column, row })) as unknown as Corners;
  const encoding = photo.encoding as 'srgb' | 'linear' | null;
  return { linear: linearisePhoto(decoded, encoding ?? 'profile', encoding !== null), truth, corners };
}

/** The outline as the truth file has it. */
function shapeOf({ outline }: WindowTruth): OutlineShape {
  if (outline.kind !== 'ellipse' || !outline.cutMm) return { kind: 'rectangle' };
  return { kind: 'ellipse', cutMm: outline.cutMm.map(([xMm, yMm]) => ({ xMm, yMm })) };
}

function imageOf({ linear, truth }: Sample, corners: Corners) {
  const { widthMm, heightMm } = truth;
  const homography = homographyFromCorners(corners, widthMm, heightMm);
  return registrationImageOf(linear, { homography, widthMm, heightMm, shape: shapeOf(truth), kind: 'dark' });
}

describe.each([
  [
    'scale',
    't60-filament.jpg',
    ['t60-amber-bare.jpg', 't60-cool-white.jpg', 't60-tilted.jpg', 't60-small.jpg', 't60-dark.jpg', 'panel-both.jpg'],
  ],
  ['meter', 'm4-filament.jpg', ['m4-amber.jpg', 'm4-one-sided-linear.png', 'panel-both.jpg']],
] as const)('the %s, registered to %s', (windowName, referenceFile, files) => {
  it.each(files)('[RG3] [RG4] [RG5] %s, corners off by 8 px of 1600, ends within 0.1 mm rms', async (file) => {
    const reference = await sampleOf(referenceFile, windowName);
    const sample = await sampleOf(file, windowName);
    const { widthMm, heightMm } = reference.truth;
    const shape = shapeOf(reference.truth);
    for (const seed of [11, 12]) {
      const corners = movedCorners(sample.corners, Math.min(8, (8 * sample.linear.widthPx) / 1600), seed);
      const found = registerWindow(imageOf(reference, reference.corners), imageOf(sample, corners));
      expect(found).toMatchObject({ passed: true });
      if (!found.passed) continue;
      const refined = refinedCorners(found, homographyFromCorners(corners, widthMm, heightMm), widthMm, heightMm);
      expect(placeError(corners, sample.corners, reference.truth, shape)).toBeGreaterThan(0.2);
      expect(placeError(refined, sample.corners, reference.truth, shape)).toBeLessThan(0.1);
      // What the parts say about each other: small, as the corners are.
      expect(found.errorMm).toBeLessThan(0.1);
    }
  });
});
