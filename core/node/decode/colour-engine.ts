// eslint-disable-next-line @typescript-eslint/triple-slash-reference -- declares modules for whoever compiles this file
/// <reference path="./untyped-modules.d.ts" />
import type { Lcms } from 'lcms-wasm';
import { linearSrgbFromConnectionXyz } from '../../photo/connection-space';

type Space = 'grey' | 'rgb' | 'cmyk';

/** Float samples of four bytes: bit 22 float, bits 16-20 colour space, bits 3-6 channels, bits 0-2 bytes. */
function floatFormat(space: number, channels: number): number {
  return (1 << 22) | (space << 16) | (channels << 3) | 4;
}

const formats: Readonly<
  Record<Space, { readonly format: number; readonly channels: number; readonly fullScale: number }>
> = {
  grey: { format: floatFormat(3, 1), channels: 1, fullScale: 1 },
  rgb: { format: floatFormat(4, 3), channels: 3, fullScale: 1 },
  // Ink in percent.
  cmyk: { format: floatFormat(6, 4), channels: 4, fullScale: 100 },
};
/** The kind of codes a profile is for; null for one that photos do not have. @source ICC.1:2022, 7.2.6 */
export function profileSpace(icc: Uint8Array): Space | null {
  const sign = String.fromCharCode(...icc.subarray(16, 20));
  return ({ GRAY: 'grey', 'RGB ': 'rgb', CMYK: 'cmyk' } as const)[sign] ?? null;
}

const xyzFormat = floatFormat(9, 3);
const relativeColorimetric = 1;
/** No one-pixel cache and no optimising: that would go through 16-bit tables and cut off what lies outside 0..1. */
const exactFlags = 0x0040 | 0x0100;
const pixelsAtOnce = 1 << 16;

let loading: Promise<Lcms> | null = null;

function loadEngine(): Promise<Lcms> {
  loading ??= import('lcms-wasm').then(({ instantiate }) => instantiate());
  return loading;
}

/** Through our own allocation: the library's own wrapper puts the profile on its small stack. */
function openProfile(lcms: Lcms, icc: Uint8Array): number {
  const at = lcms._malloc(icc.length);
  lcms.HEAPU8.set(icc, at);
  const profile = lcms._cmsOpenProfileFromMem(at, icc.length);
  lcms._free(at);
  return profile;
}

function transformAll(lcms: Lcms, transform: number, codes: Uint8Array | Uint16Array, space: Space): Float32Array {
  const { channels, fullScale } = formats[space];
  const scale = fullScale / (codes instanceof Uint8Array ? 255 : 65535);
  const [red, green, blue] = linearSrgbFromConnectionXyz;
  const light = new Float32Array((codes.length / channels) * 3);
  for (let first = 0; first * channels < codes.length; first += pixelsAtOnce) {
    const part = Float32Array.from(
      codes.subarray(first * channels, (first + pixelsAtOnce) * channels),
      (code) => code * scale,
    );
    const xyz = lcms.cmsDoTransform(transform, part, part.length / channels);
    for (let i = 0; i < xyz.length; i += 3) {
      const to = first * 3 + i;
      light[to] = red[0] * xyz[i] + red[1] * xyz[i + 1] + red[2] * xyz[i + 2];
      light[to + 1] = green[0] * xyz[i] + green[1] * xyz[i + 1] + green[2] * xyz[i + 2];
      light[to + 2] = blue[0] * xyz[i] + blue[1] * xyz[i + 1] + blue[2] * xyz[i + 2];
    }
  }
  return light;
}

/**
 * Light of codes through a profile of any kind: relative colorimetric, no black-point compensation, to XYZ (D50), then
 * Bradford to D65 and linear sRGB; not cut to 0..1.
 *
 * @param codes  interleaved: 3 channels for `rgb`, 4 for `cmyk` (0 = no ink), 1 for `grey`; not altered
 * @returns 3 values a pixel, 1 = full scale; null when the engine cannot follow the profile
 * @source ICC.1:2022; the engine is Little CMS
 * @rule PX5
 */
export async function lightThroughProfile(
  icc: Uint8Array,
  codes: Uint8Array | Uint16Array,
  space: Space,
): Promise<Float32Array | null> {
  const lcms = await loadEngine();
  const profile = openProfile(lcms, icc);
  if (!profile) return null;
  const xyz = lcms.cmsCreateXYZProfile();
  const transform = lcms.cmsCreateTransform(
    profile,
    formats[space].format,
    xyz,
    xyzFormat,
    relativeColorimetric,
    exactFlags,
  );
  try {
    return transform ? transformAll(lcms, transform, codes, space) : null;
  } finally {
    if (transform) lcms.cmsDeleteTransform(transform);
    lcms.cmsCloseProfile(xyz);
    lcms.cmsCloseProfile(profile);
  }
}
