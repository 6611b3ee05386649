import type { ErrorKind } from '../../base/errors';
import type { DecodedPhoto, PixelRegion } from '../../photo/decoded-photo';
import type { PhotoLimits } from './photo-limits';

/** Parent to child. */
export interface DecodeRequest {
  readonly place: string;
  readonly region: PixelRegion | null;
  readonly limits: PhotoLimits;
  /** Where the child writes the planes: private to the parent, which removes it. */
  readonly pixelFile: string;
}

/** Everything of a decoded photo but its planes; those are far too large for messages. */
export interface DecodedHead {
  readonly photo: Omit<DecodedPhoto, 'codes' | 'linear' | 'icc'>;
  /** Bits of a code; null: no codes. */
  readonly codeBits: 8 | 16 | null;
  readonly hasLinear: boolean;
  /** null: no profile. */
  readonly iccBytes: number | null;
}

/** Child to parent. */
export type DecodeReply =
  | { readonly head: DecodedHead }
  | {
      /** The photo brought the decoder down: the process must not be used again. */
      readonly spent: boolean;
      readonly refused: {
        readonly kind: ErrorKind;
        readonly code: string;
        readonly message: string;
        readonly remedy: string;
      };
    }
  | { readonly defect: string };

/** The head of a photo, and the parts of its pixel file in their order: light, codes, profile. */
export function splitPhoto(decoded: DecodedPhoto): { head: DecodedHead; parts: Uint8Array[] } {
  const { codes, linear, icc, ...photo } = decoded;
  const codeBits = codes ? (codes instanceof Uint8Array ? 8 : 16) : null;
  const head = { photo, codeBits, hasLinear: linear !== null, iccBytes: icc ? icc.length : null } as const;
  const parts = [linear, codes, icc]
    .filter((plane) => plane !== null)
    .map((plane) => new Uint8Array(plane.buffer, plane.byteOffset, plane.byteLength));
  return { head, parts };
}

/** Bytes of the light, the codes and the profile in the pixel file; 0 for what is not there. */
export function partLengthsOf(head: DecodedHead): [linear: number, codes: number, icc: number] {
  const { width, height } = head.photo.region;
  const samples = width * height * 3;
  return [head.hasLinear ? samples * 4 : 0, head.codeBits ? (samples * head.codeBits) / 8 : 0, head.iccBytes ?? 0];
}

/** The photo again, from its head and the parts of `partLengthsOf`, each a fresh array of its own. */
export function photoFrom(head: DecodedHead, [linear, codes, icc]: readonly Uint8Array[]): DecodedPhoto {
  const wide = head.codeBits === 16 ? new Uint16Array(codes.buffer, codes.byteOffset, codes.length / 2) : codes;
  return {
    ...head.photo,
    codes: head.codeBits === null ? null : wide,
    linear: head.hasLinear ? new Float32Array(linear.buffer, linear.byteOffset, linear.length / 4) : null,
    icc: head.iccBytes === null ? null : icc,
  };
}
