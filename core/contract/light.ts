/** The kind of light behind the window, as the user states it: a photo cannot tell. */
export const lightKinds = [
  'filament',
  'warm-white',
  'cool-white',
  'phosphor-amber',
  'narrow-amber',
  'red+green',
  'red+yellow-green',
  'red',
  'unknown',
] as const;
export type LightKind = (typeof lightKinds)[number];

/** Whether other light than the lamp's fell on the window. */
export const roomKinds = ['dark', 'lit', 'unknown'] as const;
export type RoomKind = (typeof roomKinds)[number];

/** How code values relate to light. */
export const encodings = ['srgb', 'linear', 'profile'] as const;
export type Encoding = (typeof encodings)[number];

/** Dark print on a glowing ground, glowing print on a dark ground, no print, or let the engine decide. */
export const printKinds = ['dark', 'light', 'none', 'auto'] as const;
export type PrintKind = (typeof printKinds)[number];
