// eslint-disable-next-line @typescript-eslint/triple-slash-reference -- declares modules for whoever compiles this file
/// <reference path="./untyped-modules.d.ts" />
import type { Libheif } from 'libheif-js/wasm-bundle.js';
import { photoDamaged } from './photo-errors';
import type { StoredHeader } from './sharp-pixels';
import type { StoredPixels } from './upright';

const colourSpaceRgb = 1;
const interleavedRgb8 = 10;
const interleavedRgb16LittleEndian = 14;
const interleavedChannel = 10;

let loading: Promise<Libheif> | null = null;

function loadLibheif(): Promise<Libheif> {
  loading ??= import('libheif-js/wasm-bundle.js').then((module) => module.default);
  return loading;
}

/** One scratch place for error structs, pointers and strides; freed with the context. */
class HeicFile {
  private readonly scratch: number;
  private readonly context: number;
  private handle = 0;

  constructor(
    private readonly lib: Libheif,
    private readonly file: string,
    bytes: Uint8Array,
  ) {
    this.scratch = lib._malloc(32);
    this.context = lib._heif_context_alloc();
    const at = lib._malloc(bytes.length);
    lib.HEAPU8.set(bytes, at);
    lib._heif_context_read_from_memory(this.scratch, this.context, at, bytes.length, 0);
    lib._free(at);
    this.check();
    lib._heif_context_get_primary_image_handle(this.scratch, this.context, this.scratch + 16);
    this.check();
    this.handle = this.word(16);
  }

  private word(offset: number): number {
    return this.lib.HEAPU32[(this.scratch + offset) >> 2];
  }

  /** The struct holds a code and the place of a text. */
  private check(): void {
    if (this.word(0) === 0) return;
    const heap = this.lib.HEAPU8;
    const at = this.word(8);
    const text = new TextDecoder().decode(heap.slice(at, heap.indexOf(0, at)));
    throw photoDamaged(this.file, text.split('\n')[0].slice(0, 200) || 'it cannot be decoded');
  }

  private icc(): Uint8Array | null {
    const size = this.lib._heif_image_handle_get_raw_color_profile_size(this.handle);
    if (size === 0) return null;
    const at = this.lib._malloc(size);
    this.lib._heif_image_handle_get_raw_color_profile(this.scratch, this.handle, at);
    const icc = this.lib.HEAPU8.slice(at, at + size);
    this.lib._free(at);
    return this.word(0) === 0 ? icc : null;
  }

  header(): StoredHeader {
    const bitDepth = this.lib._heif_image_handle_get_luma_bits_per_pixel(this.handle);
    return {
      width: this.lib._heif_image_handle_get_width(this.handle),
      height: this.lib._heif_image_handle_get_height(this.handle),
      bitDepth,
      space: 'rgb',
      wide: bitDepth > 8,
      icc: this.icc(),
    };
  }

  pixels(wide: boolean): StoredPixels {
    const { lib, scratch } = this;
    const chroma = wide ? interleavedRgb16LittleEndian : interleavedRgb8;
    lib._heif_decode_image(scratch, this.handle, scratch + 16, colourSpaceRgb, chroma, 0);
    this.check();
    const image = this.word(16);
    try {
      if (lib._heif_image_get_decoding_warnings(image, 0, 0, 0) > 0) {
        throw photoDamaged(this.file, 'a part of the picture cannot be decoded');
      }
      return this.samplesOf(image, wide);
    } finally {
      lib._heif_image_release(image);
    }
  }

  private samplesOf(image: number, wide: boolean): StoredPixels {
    const { lib } = this;
    const width = lib._heif_image_get_width(image, interleavedChannel);
    const height = lib._heif_image_get_height(image, interleavedChannel);
    const start = lib._heif_image_get_plane_readonly2(image, interleavedChannel, this.scratch + 16);
    const stride = this.word(16);
    const rowBytes = width * 3 * (wide ? 2 : 1);
    const packed = new Uint8Array(rowBytes * height);
    for (let row = 0; row < height; row++) {
      const from = start + row * stride;
      packed.set(lib.HEAPU8.subarray(from, from + rowBytes), row * rowBytes);
    }
    if (!wide) return { width, height, channels: 3, samples: packed };
    const most = 2 ** lib._heif_image_get_bits_per_pixel_range(image, interleavedChannel) - 1;
    const samples = new Uint16Array(packed.buffer).map((code) => Math.round((code * 65535) / most));
    return { width, height, channels: 3, samples };
  }

  close(): void {
    if (this.handle) this.lib._heif_image_handle_release(this.handle);
    this.lib._heif_context_free(this.context);
    this.lib._free(this.scratch);
  }
}

/**
 * Decodes the primary picture of a HEIC file, tiles put together and turned upright by the file's own boxes; the EXIF
 * orientation is for information only and must not be applied again.
 *
 * @param check  called with the header before decoding; throws when the photo is too large
 * @source ISO/IEC 23008-12 (irot, imir); the decoder is libheif
 */
export async function decodeHeic(
  file: string,
  bytes: Uint8Array,
  check: (header: StoredHeader) => void,
): Promise<{ header: StoredHeader; pixels: StoredPixels }> {
  const heic = new HeicFile(await loadLibheif(), file, bytes);
  try {
    const header = heic.header();
    check(header);
    return { header, pixels: heic.pixels(header.wide) };
  } finally {
    heic.close();
  }
}
