import { exposureText } from '../../core/display/exposure-text';
import type { PhotoId } from '../../core/contract/bench';
import type { PhotoOnBench } from './bench-state';
import { exposureEv } from './same-window';

/** A longer pause than this between two photos begins another round of tries. */
const pauseMinutes = 20;
/** Exposures nearer than this are one. */
const sameEv = 1 / 3;

/** Photos of one round of tries, exposed alike; as they lie in the stack, without another between them. */
export interface PhotoGroup {
  readonly first: PhotoId;
  /** `20:14, 1/10 s f/4 ISO 100`; empty where the files tell neither. */
  readonly words: string;
}

const cameraOf = ({ reading }: PhotoOnBench) => reading?.photos[0].camera;
/** The camera's own clock, in minutes; null when the file does not tell. */
export function takenAtMinutes(photo: PhotoOnBench): number | null {
  const takenAt = cameraOf(photo)?.takenAt;
  // Local time without a zone: read as if it were UTC, since only pauses matter.
  const ms = takenAt === undefined ? NaN : Date.parse(`${takenAt.slice(0, 19)}Z`);
  return Number.isNaN(ms) ? null : ms / 60_000;
}

function wordsOf(photo: PhotoOnBench): string {
  const camera = cameraOf(photo);
  if (!camera) return '';
  const { takenAt, exposureS, fNumber, iso } = camera;
  const exposure = [
    exposureS === undefined ? null : exposureText(exposureS),
    fNumber === undefined ? null : `f/${fNumber}`,
    iso === undefined ? null : `ISO ${iso}`,
  ].filter((part) => part !== null);
  return [takenAt?.slice(11, 16) ?? '', exposure.join(' ')].filter((part) => part !== '').join(', ');
}

function areOfOneGroup(one: PhotoOnBench, next: PhotoOnBench): boolean {
  const [a, b] = [takenAtMinutes(one), takenAtMinutes(next)];
  if (a !== null && b !== null && Math.abs(a - b) > pauseMinutes) return false;
  const [evA, evB] = [one, next].map((photo) => {
    const camera = cameraOf(photo);
    return camera ? exposureEv(camera) : null;
  });
  return evA === null || evB === null || Math.abs(evA - evB) <= sameEv + 1e-9;
}

/** Where groups begin in the stack; empty while there is but one. A photo that tells nothing belongs to the one above it. */
export function photoGroups(photos: readonly PhotoOnBench[]): readonly PhotoGroup[] {
  const groups: PhotoGroup[] = [];
  let last: PhotoOnBench | null = null;
  for (const photo of photos) {
    if (last === null || !areOfOneGroup(last, photo)) groups.push({ first: photo.id, words: wordsOf(photo) });
    if (last === null || wordsOf(photo) !== '') last = photo;
  }
  return groups.length > 1 ? groups : [];
}

/** Photos of one drop, newest first, those of one round and exposure together; those that tell no time stay at the end. */
export function arranged(photos: readonly PhotoOnBench[]): readonly PhotoOnBench[] {
  const timed = photos.filter((photo) => takenAtMinutes(photo) !== null);
  const byTime = [...timed].sort((a, b) => (takenAtMinutes(b) ?? 0) - (takenAtMinutes(a) ?? 0));
  const groups: PhotoOnBench[][] = [];
  for (const photo of byTime) {
    const own = groups.find((group) => areOfOneGroup(group[group.length - 1], photo));
    if (own) own.push(photo);
    else groups.push([photo]);
  }
  return [...groups.flat(), ...photos.filter((photo) => takenAtMinutes(photo) === null)];
}
