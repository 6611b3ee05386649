import type { DecodedPhoto, PhotoFacts } from '../../../core/photo/decoded-photo';

/** A decoded photo of these codes, without a profile; whatever else is wanted is given. */
export function drawDecoded(
  codes: Uint8Array | Uint16Array | null,
  width: number,
  more: Partial<Omit<DecodedPhoto, 'codes' | 'facts'>> & { readonly facts?: Partial<PhotoFacts> } = {},
): DecodedPhoto {
  const samples = codes ?? more.linear!;
  const height = samples.length / 3 / width;
  return {
    region: { column: 2, row: 5, width, height },
    linear: null,
    icc: null,
    profileName: null,
    decodeMs: 1,
    ...more,
    codes,
    facts: {
      sha256: '0'.repeat(64),
      widthPx: width + 7,
      heightPx: height + 11,
      bitDepth: codes instanceof Uint16Array ? 16 : 8,
      format: 'png',
      camera: { whiteBalance: 'unknown' },
      exifSaysSrgb: false,
      toneMappingHints: [],
      ...more.facts,
    },
  };
}

/** Numbers 0..1 from a fixed start, the same in every run. */
export function seededNumbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
