import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { ScreenPixels } from '../../../../core/contract/bench';
import { CallFailed, type BenchLink } from '../../../../renderer/link/bench-link';
import { BookPictures } from '../../../../renderer/state/book-pictures';
import { diskFull, rest } from '../../../support/one-unit-host';

const asked = { unit: 'larkfield-t-60-1', sha256: 'a'.repeat(64), window: 'scale' };
let answers: ((pixels: ScreenPixels | null) => void)[];
let isFailing: boolean;
let nowMs: number;
let pictures: BookPictures;

const sized = (width: number): ScreenPixels => ({
  width,
  height: 1,
  rgba: new Uint8ClampedArray(4 * width),
  photoWidthPx: width,
  photoHeightPx: 1,
});
const widthNow = (revision: number): number | null | undefined => {
  const picture = pictures.of(asked, revision);
  return picture && picture.width;
};

beforeEach(() => {
  // As a browser has it.
  vi.stubGlobal(
    'ImageData',
    class {
      constructor(
        readonly data: Uint8ClampedArray,
        readonly width: number,
        readonly height: number,
      ) {}
    },
  );
  answers = [];
  isFailing = false;
  nowMs = 0;
  const call = (): Promise<ScreenPixels | null> =>
    isFailing ? Promise.reject(new CallFailed(diskFull)) : new Promise((resolve) => answers.push(resolve));
  pictures = new BookPictures({ call } as unknown as BenchLink, () => nowMs);
});
afterEach(() => vi.unstubAllGlobals());

describe('small pictures of the book', () => {
  it('[SU20] are asked for again with every revision; the old one is shown meanwhile, and comes too late afterwards', async () => {
    expect([widthNow(1), widthNow(1)]).toEqual([undefined, undefined]);
    expect(answers).toHaveLength(1);
    answers[0](sized(10));
    await rest();
    expect(widthNow(1)).toBe(10);
    expect([widthNow(2), widthNow(3)]).toEqual([10, 10]);
    expect(answers).toHaveLength(3);
    answers[2](sized(30));
    await rest();
    answers[1](sized(20));
    await rest();
    expect(widthNow(3)).toBe(30);
    expect(answers).toHaveLength(3);
  });

  it('[SU20] that failed are tried again when they are looked at later; that there is none stands for its revision', async () => {
    isFailing = true;
    widthNow(1);
    await rest();
    isFailing = false;
    expect([widthNow(1), answers.length]).toEqual([null, 0]);
    nowMs = 6000;
    widthNow(1);
    answers[0](null);
    await rest();
    nowMs = 1e6;
    expect([widthNow(1), answers.length]).toEqual([null, 1]);
    widthNow(2);
    answers[1](sized(10));
    await rest();
    expect(widthNow(2)).toBe(10);
  });
});
