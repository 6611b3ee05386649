// The parts that we use of two libraries that come without usable types.

declare module 'libheif-js/wasm-bundle.js' {
  /** The C functions of libheif; one that returns a struct takes the place for it as its first argument. */
  export interface Libheif {
    readonly HEAPU8: Uint8Array;
    readonly HEAPU32: Uint32Array;
    _malloc(bytes: number): number;
    _free(at: number): void;
    _heif_context_alloc(): number;
    _heif_context_free(context: number): void;
    _heif_context_read_from_memory(error: number, context: number, at: number, length: number, options: number): void;
    _heif_context_get_primary_image_handle(error: number, context: number, handleAt: number): void;
    _heif_image_handle_release(handle: number): void;
    _heif_image_handle_get_width(handle: number): number;
    _heif_image_handle_get_height(handle: number): number;
    _heif_image_handle_get_luma_bits_per_pixel(handle: number): number;
    _heif_image_handle_get_raw_color_profile_size(handle: number): number;
    _heif_image_handle_get_raw_color_profile(error: number, handle: number, at: number): void;
    _heif_decode_image(
      error: number,
      handle: number,
      imageAt: number,
      colourSpace: number,
      chroma: number,
      options: number,
    ): void;
    _heif_image_get_width(image: number, channel: number): number;
    _heif_image_get_height(image: number, channel: number): number;
    _heif_image_get_bits_per_pixel_range(image: number, channel: number): number;
    _heif_image_get_plane_readonly2(image: number, channel: number, strideAt: number): number;
    _heif_image_get_decoding_warnings(image: number, first: number, at: number, most: number): number;
    _heif_image_release(image: number): void;
  }
  const libheif: Libheif;
  export { libheif as default };
}

declare module 'lcms-wasm' {
  export interface Lcms {
    readonly HEAPU8: Uint8Array;
    _malloc(bytes: number): number;
    _free(at: number): void;
    _cmsOpenProfileFromMem(at: number, length: number): number;
    cmsCreateXYZProfile(): number;
    cmsCloseProfile(profile: number): void;
    cmsCreateTransform(
      from: number,
      fromFormat: number,
      to: number,
      toFormat: number,
      intent: number,
      flags: number,
    ): number;
    cmsDeleteTransform(transform: number): void;
    cmsDoTransform(transform: number, values: Float32Array, count: number): Float32Array;
  }
  export function instantiate(): Promise<Lcms>;
}
