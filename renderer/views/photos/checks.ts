import type { Gate, GateCode } from '../../../core/contract/gates';

export interface PhotoCheck {
  /** What holds when it passes. */
  readonly name: string;
  readonly codes: readonly GateCode[];
}

/** What is looked at in every photo, in the order in which one would put it right. */
export const photoChecks: readonly PhotoCheck[] = [
  { name: 'Not overexposed', codes: ['PHOTO_CLIPPED', 'RED_CLIPPED', 'BLUE_CLIPPED'] },
  { name: 'Bright enough', codes: ['PHOTO_TOO_DARK'] },
  { name: 'Low noise', codes: ['PHOTO_NOISY'] },
  { name: 'Sharp', codes: ['PHOTO_NOT_SHARP'] },
  { name: 'Large enough', codes: ['RESOLUTION_LOW', 'GLOW_TOO_SMALL', 'SCALE_DIFFERS'] },
  { name: 'Whole window in view', codes: ['WINDOW_CUT', 'OUTLINE_UNSURE', 'OUTLINE_ON_FRAME'] },
  { name: 'Seen straight on', codes: ['TILTED'] },
  { name: 'Not too wide in the frame', codes: ['WINDOW_TOO_WIDE', 'LENS_CHANGED', 'FLAT_FIELD_UNUSABLE'] },
  { name: 'Size fits', codes: ['ASPECT_DIFFERS', 'SIZE_ASSUMED'] },
  { name: 'No other light', codes: ['ROOM_LIGHT', 'ROOM_UNKNOWN', 'LAMP_OFF_MISMATCH'] },
  { name: 'No reflection', codes: ['REFLECTION'] },
  { name: 'No stripes', codes: ['BANDING'] },
  { name: 'Exposure known', codes: ['EXPOSURE_UNKNOWN', 'EXPOSURE_DIFFERS', 'BRACKET_UNUSABLE'] },
  { name: 'White balance fixed', codes: ['WHITE_BALANCE_AUTO', 'WHITE_BALANCE_DIFFERS'] },
  { name: 'Tones as recorded', codes: ['TONE_MAPPED', 'ENCODING_DOUBTFUL', 'TONE_CURVE', 'RESPONSE_UNUSED'] },
  { name: 'Colours as stated', codes: ['PROFILE_MISSING', 'OUT_OF_GAMUT'] },
  {
    name: 'Print told from glow',
    codes: ['PRINT_UNDECIDED', 'PRINT_MASK_SINGLE_PHOTO', 'PRINT_PHOTO_UNUSED', 'NOT_REGISTERED'],
  },
  { name: 'Red print found', codes: ['RED_NOT_FOUND', 'STROKE_TOO_THIN'] },
];

const order = { refuse: 0, warn: 1, note: 2 } as const;

/** The gravest gate of a check; null when it passed. */
export function gateOfCheck(check: PhotoCheck, gates: readonly Gate[]): Gate | null {
  const raised = gates.filter(({ code }) => check.codes.includes(code));
  return raised.sort((a, b) => order[a.level] - order[b.level]).at(0) ?? null;
}
