import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/base/errors';
import type { MeasureJob, PhotoRef } from '../../../core/contract/measure';
import { helpersOf, jobDecoder, witnessOf } from '../../../core/preparation/job-photos';
import type { DecodedPhoto } from '../../../core/photo/decoded-photo';
import { drawDecoded } from '../photo/draw-decoded';
import { place } from './draw-scale';

const ref = (file: string, exposure: PhotoRef['exposure'] = {}): PhotoRef => ({
  file,
  path: `/in/${file}`,
  encoding: 'profile',
  encodingStated: false,
  exposure,
});
const job = (more: Partial<MeasureJob> = {}): MeasureJob => ({
  role: 'trial',
  name: 'try',
  photo: ref('lit.jpg', { fNumber: 4, iso: 100 }),
  light: 'unknown',
  windows: [
    {
      spec: {
        name: 'scale',
        shape: { kind: 'rectangle' },
        print: 'dark',
        leaveOut: [],
        paintedRed: [],
        paintedDark: [],
      },
      sizeMm: { widthMm: 30, heightMm: 12 },
      corners: place.corners,
    },
  ],
  ...more,
});

const [width, height] = [340, 160];
/** A grey photo whose file tells ISO 200. */
const decoded = (): DecodedPhoto =>
  drawDecoded(new Uint8Array(width * height * 3).fill(120), width, {
    region: { column: 0, row: 0, width, height },
    facts: { widthPx: width, heightPx: height, camera: { iso: 200, whiteBalance: 'auto' } },
  });

describe('the photos of a job', () => {
  it('[CP6] the file’s notes go before what is stated for the lit photo, what is stated for itself before both', async () => {
    const shown = job({ lampOff: ref('off.jpg', { exposureS: 0.5 }), flatField: ref('sheet.jpg') });
    const all = await jobDecoder(async () => decoded())(shown);
    const { lampOff, flatField } = helpersOf(shown, all, place.corners, 1);
    expect(lampOff?.camera).toEqual({ exposureS: 0.5, fNumber: 4, iso: 200, whiteBalance: 'auto' });
    expect(flatField?.camera).toEqual({ fNumber: 4, iso: 200, whiteBalance: 'auto' });
  });

  it('[CP6] a flat field is decoded once, and whole', async () => {
    const asked: string[] = [];
    const decode = jobDecoder(async (path, { regionPx }) => {
      asked.push(`${path} ${regionPx ? 'a part' : 'whole'}`);
      return decoded();
    });
    await decode(job({ flatField: ref('sheet.jpg') }));
    await decode(job({ flatField: ref('sheet.jpg') }));
    expect(asked).toEqual(['/in/lit.jpg a part', '/in/sheet.jpg whole', '/in/lit.jpg a part']);
  });

  it('[CP6] a helper that cannot be read is named; other failures are defects and stay as they are', async () => {
    const failing = (error: Error) =>
      jobDecoder(async (path) => {
        if (path === '/in/off.jpg') throw error;
        return decoded();
      })(job({ lampOff: ref('off.jpg') }));
    const missing = new AppError('photo', 'PHOTO_NOT_FOUND', 'There is no such file.', 'Check the name.');
    await expect(failing(missing)).rejects.toMatchObject({
      kind: 'photo',
      code: 'PHOTO_NOT_FOUND',
      message: 'The lamp-off photo (off.jpg): There is no such file.',
    });
    const defect = new TypeError('a defect');
    await expect(failing(defect)).rejects.toBe(defect);
  });

  it('[CP4] the witness patch is decoded with the windows, and a reason is told when it cannot be measured', async () => {
    const patch = [5, 5, 60, 5, 60, 15, 5, 15];
    const witnessPx = [0, 2, 4, 6].map((i) => ({ column: patch[i], row: patch[i + 1] }));
    const shown = job({ witnessPx });
    const asked: (number | undefined)[] = [];
    const all = await jobDecoder(async (_, { regionPx }) => {
      asked.push(regionPx?.row);
      return decoded();
    })(shown);
    expect(asked[0]).toBeLessThanOrEqual(5);
    expect(witnessOf(shown, all)).toMatchObject({ witness: { relUncertainty: 0 } });
    expect(witnessOf(job({ witnessPx: witnessPx.map(({ row }) => ({ column: 4000, row })) }), all)).toEqual({
      witness: { reason: expect.stringMatching(/beyond the photo/) },
    });
    expect(witnessOf(job(), all)).toEqual({});
  });
});
