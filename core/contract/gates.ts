/** Every check of a photo that can warn about a figure or refuse it. */
export const gateCodes = [
  'PHOTO_CLIPPED',
  'RED_CLIPPED',
  'BLUE_CLIPPED',
  'PHOTO_TOO_DARK',
  'PHOTO_NOISY',
  'PHOTO_NOT_SHARP',
  'RESOLUTION_LOW',
  'GLOW_TOO_SMALL',
  'ROOM_LIGHT',
  'ROOM_UNKNOWN',
  'LAMP_OFF_MISMATCH',
  'EXPOSURE_UNKNOWN',
  'EXPOSURE_DIFFERS',
  'LENS_CHANGED',
  'WHITE_BALANCE_AUTO',
  'WHITE_BALANCE_DIFFERS',
  'SCALE_DIFFERS',
  'TONE_MAPPED',
  'PROFILE_MISSING',
  'BANDING',
  'TILTED',
  'WINDOW_TOO_WIDE',
  'WINDOW_CUT',
  'ASPECT_DIFFERS',
  'REFLECTION',
  'OUT_OF_GAMUT',
  'PRINT_MASK_SINGLE_PHOTO',
  'PRINT_PHOTO_UNUSED',
  'NOT_REGISTERED',
  'PRINT_UNDECIDED',
  'RED_NOT_FOUND',
  'STROKE_TOO_THIN',
  'BRACKET_UNUSABLE',
  'TONE_CURVE',
  'RESPONSE_UNUSED',
  'SIZE_ASSUMED',
  'OUTLINE_UNSURE',
  'OUTLINE_ON_FRAME',
  'ENCODING_DOUBTFUL',
  'FLAT_FIELD_UNUSABLE',
] as const;
export type GateCode = (typeof gateCodes)[number];

export type GateLevel = 'note' | 'warn' | 'refuse';
export type FigureGroup = 'evenness' | 'spots' | 'luminance' | 'colour' | 'redPrint';

/** One raised gate. A refuse gate means that every figure it affects is null. */
export interface Gate {
  readonly code: GateCode;
  readonly level: GateLevel;
  /** What was seen, with the number. */
  readonly message: string;
  /** What to do about it. */
  readonly remedy: string;
  /** The measured quantity that raised it, in the unit the message names; null when there is none. */
  readonly value: number | null;
  readonly affects: readonly FigureGroup[];
}
