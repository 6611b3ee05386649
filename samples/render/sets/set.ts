import type { Camera } from '../camera/settings';
import type { Scene } from '../front-panel';
import { type Sample, samples } from '../sample-list';
import type { LitWindow } from '../window-scene';

/** One try of a set: its name in the series file, and its photos, more than one for a bracket. */
export interface Try {
  readonly name: string;
  readonly photos: readonly Sample[];
  /** The lamps as a series file names them. */
  readonly lamps?: readonly object[];
}

/** Photos that belong together, and what a series file says of them. */
export interface SampleSet {
  readonly name: string;
  readonly about: string;
  readonly room: 'dark' | 'lit';
  /** The photo of the reference and, when it shows several windows, which of them; null without one. */
  readonly reference: { readonly photo: Sample; readonly window?: string } | null;
  readonly tries: readonly Try[];
  /** Photos that help to measure each of the tries and the reference. */
  readonly helpers?: Readonly<Partial<Record<'lampOff' | 'flatField' | 'printPhoto', Sample>>>;
}

/** White paper on the panel at night, as in the evening's photos: under half a per cent of the glow. */
export const darkRoom = 0.00012;

export const alone = (window: LitWindow, roomLight = darkRoom): Scene => ({
  roomLight,
  windows: [{ window, leftMm: 0, topMm: 0 }],
});

/** The same window with its lamps off. */
export const off = (window: LitWindow): LitWindow => ({ ...window, lamps: [] });

/** The everyday camera on a stand, with an sRGB curve; small photos, so that a set stays light. */
export const onStand: Camera = {
  ...samples[0].camera,
  widthPx: 1000,
  heightPx: 380,
  pose: { yawDeg: 0.8, pitchDeg: -1.5, rollDeg: 0.2, framedMm: 125, aimMm: [46, 9.5] },
  response: { kind: 'srgb' },
  blurPx: 0.6,
  file: { kind: 'jpeg', quality: 90 },
};

/** The n-th photo of a set of one day: noise and time of its own. */
export function taken(camera: Camera, day: number, n: number, changes: Partial<Camera> = {}): Camera {
  const two = (value: number) => String(value).padStart(2, '0');
  const takenAt = `2026:03:${two(day)} ${two(20 + Math.floor(n / 20))}:${two((n % 20) * 3)}:00`;
  return { ...camera, ...changes, seed: 100 * day + n, takenAt };
}

/** The same camera held in the hand: each photo framed a little differently. */
export function held(camera: Camera, n: number): Camera {
  const sway = ((n * 7) % 11) / 11 - 0.5;
  const { pose } = camera;
  const aimMm = [pose.aimMm[0] + 2 * sway, pose.aimMm[1] - sway] as const;
  return { ...camera, pose: { ...pose, yawDeg: pose.yawDeg + sway, rollDeg: pose.rollDeg + 0.4 * sway, aimMm } };
}

/** All photos of a set, each once. */
export function photosOf({ reference, tries, helpers }: SampleSet): Sample[] {
  const all = [
    ...(reference ? [reference.photo] : []),
    ...tries.flatMap(({ photos }) => photos),
    ...Object.values(helpers ?? {}),
  ];
  return [...new Set(all)];
}
