import type { BenchError, MeasureAsked, PhotoId, SampleOffered } from '../../core/contract/bench';
import type { MeasureProgress } from '../../core/contract/measure';
import type { Reading } from '../../core/contract/readings';
import type { RefusedPhoto } from '../link/bench-link';

/** How one photo is to be read: all that the user may set. */
export type ReadingSettings = Omit<MeasureAsked, 'photo' | 'reference'> & {
  /** The same window by its filament lamps, read as that photo's own settings say; null: none. */
  readonly reference: PhotoId | null;
  /** The photo whose window's size this one took over; null: it was said of this one, or there is none. */
  readonly sizeFrom: PhotoId | null;
};

/** Where a photo stands on its way to a verdict. */
export type PhotoStatus =
  | { readonly kind: 'waiting' }
  | { readonly kind: 'measuring'; readonly step: MeasureProgress['step'] }
  | { readonly kind: 'measured' }
  | { readonly kind: 'failed'; readonly error: BenchError };

export interface PhotoOnBench {
  readonly id: PhotoId;
  readonly name: string;
  readonly isSample: boolean;
  readonly settings: ReadingSettings;
  readonly status: PhotoStatus;
  /** Of the settings as they stand when status is measured; of earlier ones while it is measured again. */
  readonly reading: Reading | null;
}

export interface MeasuredPhotoOnBench extends PhotoOnBench {
  readonly reading: Reading;
}

/** A photo with a reading, perhaps of earlier settings while it is measured again. */
export const hasReading = (photo: PhotoOnBench): photo is MeasuredPhotoOnBench =>
  photo.status.kind !== 'failed' && photo.reading !== null;

export const isMeasured = (photo: PhotoOnBench): photo is MeasuredPhotoOnBench =>
  photo.status.kind === 'measured' && photo.reading !== null;

export const stations = ['photos', 'outline', 'reading', 'compare', 'next'] as const;
export type Station = (typeof stations)[number];

export interface BenchState {
  /** false until the host has answered for the first time. */
  readonly isReady: boolean;
  readonly version: string;
  readonly shell: 'desktop' | 'browser';
  readonly samples: readonly SampleOffered[];
  /** Newest first. */
  readonly photos: readonly PhotoOnBench[];
  /** Files that never got onto the bench, and why. */
  readonly refusedFiles: readonly RefusedPhoto[];
  readonly selected: PhotoId | null;
  readonly station: Station;
  /** Why the host could not be greeted: the bench cannot be used. */
  readonly startError: BenchError | null;
  /** What was lost when the engine ended by itself; null while it runs. */
  readonly engineStopped: string | null;
  /** What the page had kept of its photos and could not read any more. */
  readonly lost: BenchError | null;
  /** The last thing done, for the foot line and for screen readers. */
  readonly said: string;
}

export const emptyBench: BenchState = {
  isReady: false,
  version: '',
  shell: 'browser',
  samples: [],
  photos: [],
  refusedFiles: [],
  selected: null,
  station: 'reading',
  startError: null,
  engineStopped: null,
  lost: null,
  said: '',
};

export function photoOf(state: BenchState, id: PhotoId | null): PhotoOnBench | null {
  return state.photos.find((photo) => photo.id === id) ?? null;
}

/** The state with one photo changed. */
export function withPhoto(
  state: BenchState,
  id: PhotoId,
  change: (photo: PhotoOnBench) => Partial<PhotoOnBench>,
): BenchState {
  return {
    ...state,
    photos: state.photos.map((photo) => (photo.id === id ? { ...photo, ...change(photo) } : photo)),
  };
}
