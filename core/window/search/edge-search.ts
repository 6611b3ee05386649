import type { PhotoPoint } from '../../base/points';
import type { LightAt } from './light-grid';

/** A place on an assumed outline, with the direction that leads out of the window (length 1). */
export interface OutlinePlace {
  readonly at: PhotoPoint;
  readonly outX: number;
  readonly outY: number;
}

/** Where the light drops most on the way out of the window. */
export interface FoundEdge {
  /** From the place, px, positive outwards. */
  readonly offsetPx: number;
  /** How much it drops there within two steps, in the unit of toned light. */
  readonly drop: number;
  /** How much it drops from the first third of the profile to the last. */
  readonly fall: number;
}

/** How light is compared: as it is, or on a scale where a dim window's edge counts like a bright one's. */
export type Tone = (light: number) => number;

/**
 * The strongest drop of light along the normal, from `reachPx` inside to `reachPx` outside.
 *
 * drop(s) = mean of the two samples before s - mean of the two after; its peak is placed between the samples by a
 * parabola. Half way down a blurred edge is where the edge is, so `tone` must be the identity when the place itself matters.
 *
 * @param stepPx  distance of the samples, above 0
 * @returns null when the light drops nowhere
 * @source common practice (gradient maximum with a parabola)
 * @rule WN15
 */
export function strongestDrop(
  lightAt: LightAt,
  { at, outX, outY }: OutlinePlace,
  reachPx: number,
  stepPx: number,
  tone: Tone,
): FoundEdge | null {
  const count = 2 * Math.ceil(reachPx / stepPx) + 4;
  const firstPx = -((count - 1) / 2) * stepPx;
  const profile = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const out = firstPx + i * stepPx;
    profile[i] = tone(lightAt(at.column + out * outX, at.row + out * outY));
  }
  // drop k lies between samples k + 1 and k + 2.
  const drops = new Float64Array(count - 3);
  let best = 0;
  for (let k = 0; k < drops.length; k++) {
    drops[k] = (profile[k] + profile[k + 1] - profile[k + 2] - profile[k + 3]) / 2;
    if (drops[k] > drops[best]) best = k;
  }
  if (!(drops[best] > 0)) return null;
  const before = best > 0 ? drops[best - 1] : drops[best];
  const after = best < drops.length - 1 ? drops[best + 1] : drops[best];
  const bend = before - 2 * drops[best] + after;
  const between = bend < 0 ? (0.5 * (before - after)) / bend : 0;
  return { offsetPx: firstPx + (best + 1.5 + between) * stepPx, drop: drops[best], fall: fallOf(profile) };
}

function fallOf(profile: Float64Array): number {
  const third = Math.floor(profile.length / 3);
  let fall = 0;
  for (let i = 0; i < third; i++) fall += profile[i] - profile[profile.length - 1 - i];
  return fall / third;
}

/** One pass of a refinement: which pixels, how far from the outline to look, and how finely. */
export interface SearchPass {
  readonly lightAt: LightAt;
  readonly reachPx: number;
  readonly stepPx: number;
  readonly tone: Tone;
  /** Smaller drops are noise or the glow's own fall-off, in the unit of `tone`. */
  readonly leastDrop: number;
}

/** The place that `strongestDrop` finds; null when nothing drops by enough. */
export function edgeAt(place: OutlinePlace, pass: SearchPass): FoundEdge | null {
  const found = strongestDrop(pass.lightAt, place, pass.reachPx, pass.stepPx, pass.tone);
  return found && found.drop >= pass.leastDrop ? found : null;
}
