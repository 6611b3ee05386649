import { readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { medianOf } from '../../core/base/stats';
import { linearFromSrgb } from '../../core/colour/transfer';
import { createDecoder } from '../../core/node/decode-process';
import { judgeLinear } from '../../core/photo/response/linear-verdict';
import { lightOfCode } from '../../core/photo/response/polynomial';
import { recoverResponse } from '../../core/photo/response/recover';
import { sampleChannel, type BracketFrame } from '../../core/photo/response/samples';
import { photosAbsent, placeOf, whySkipped } from './shared-photos';

const decoder = createDecoder({ processes: 1 });
afterAll(() => decoder.close());

async function decode(file: string): Promise<{ codes: Uint8Array; width: number; exposureS: number | undefined }> {
  const { codes, region, facts } = await decoder.decode(placeOf({ file: `bracket/${file}` }), { regionPx: null });
  return { codes: codes as Uint8Array, width: region.width, exposureS: facts.camera.exposureS };
}

/** Half-size planes of a colour mosaic as if they were red, green, blue: cells (0, 0), (1, 0), (1, 1) of each 2 x 2. */
function mosaicChannels({ codes, width }: { codes: Uint8Array; width: number }, black: number): Uint8Array {
  const [columns, rows] = [width >> 1, (codes.length / 3 / width) >> 1];
  return Uint8Array.from({ length: 3 * columns * rows }, (_, i) => {
    const pixel = Math.floor(i / 3);
    const [dx, dy] = [
      [0, 0],
      [1, 0],
      [1, 1],
    ][i % 3];
    const at = (2 * Math.floor(pixel / columns) + dy) * width + 2 * (pixel % columns) + dx;
    return Math.max(0, codes[3 * at] - black);
  });
}

const plain = [linearFromSrgb, linearFromSrgb, linearFromSrgb] as const;

/** Codes 0..1 and light of red, green, blue, as published for this series by another program. */
function publishedCurve(): number[][] {
  const text = readFileSync(placeOf({ file: 'bracket/frobisher_response_reference.csv' }), 'utf8');
  const [, ...rows] = text.trim().split('\n');
  return rows.map((row) => row.split(',').map(Number));
}

describe.skipIf(photosAbsent)(`real exposure series${whySkipped}`, () => {
  it('[BR2] [BR5] three JPEGs 3 EV apart: the curve is near the published one, tells far better than sRGB, and is doubted', async () => {
    const files = await Promise.all([0, 1, 2].map((n) => decode(`frobisher_IMG_260${n}.jpg`)));
    const frames = files.map(({ codes, exposureS }): BracketFrame => ({ codes, relExposure: exposureS! }));
    const found = recoverResponse(frames, files[0].width, plain);
    if ('refused' in found) throw new Error(found.refused);
    // Seen: 0.032, 0.004, 0.019 of full scale; sRGB's own are 0.030, 0.030, 0.057. The series clips most of what is bright.
    const table = publishedCurve();
    const rms = [found.response.red, found.response.green, found.response.blue].map((polynomial, channel) => {
      const squares = table.map(([code, ...light]) => (lightOfCode(polynomial, code) - light[channel]) ** 2);
      return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / table.length);
    });
    for (const of of rms) expect(of).toBeLessThan(0.04);
    expect(found.leftOutError).toBeLessThan(found.plainError / 5);
    expect(found.apartFromLogResponse).toBeGreaterThan(0.1); // which is warned of
  });

  it('[BR4] raw photos of narrow-band light: linear in the strong channels, too dark to tell in the weak one', async () => {
    const frames = await Promise.all(
      [25, 50, 100, 250].map(async (ms): Promise<BracketFrame> => {
        const [lit, dark] = await Promise.all([decode(`chart_600nm_${ms}ms.tif`), decode(`dark_${ms}ms.tif`)]);
        return { codes: mosaicChannels(lit, medianOf(dark.codes)), relExposure: ms };
      }),
    );
    const verdicts = ([0, 1, 2] as const).map((channel) => judgeLinear(sampleChannel(frames, channel, 204)));
    expect(verdicts[0]?.share).toBeGreaterThan(0.95);
    expect(verdicts[2]?.share).toBeGreaterThan(0.95);
    const found = recoverResponse(frames, 204, plain);
    expect(found).toMatchObject({ response: { isLinear: true }, borrowing: ['green'] });
  });
});
