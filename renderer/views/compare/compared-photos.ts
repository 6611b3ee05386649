import type { PhotoId } from '../../../core/contract/bench';
import type { MeasuredPhotoOnBench } from '../../state/bench-state';
import type { MarkKind } from './plot';

/** What every view of station Compare is given. */
export interface ComparedPhotos {
  readonly photo: MeasuredPhotoOnBench;
  /** The one it is compared with; null: there is no other. */
  readonly other: MeasuredPhotoOnBench | null;
  readonly reference: PhotoId | null;
  /** All of this window, the reference among them. */
  readonly photos: readonly MeasuredPhotoOnBench[];
}

export function kindOf(id: PhotoId, { photo, other, reference }: ComparedPhotos): MarkKind {
  if (id === photo.id) return 'this';
  if (id === reference) return 'reference';
  return id === other?.id ? 'other' : 'rest';
}

/** Names for the key under a plot: the photo in view, the other one, the reference. */
export function keyOf(given: ComparedPhotos): (readonly [MarkKind, string])[] {
  const { photo, other, reference, photos } = given;
  const filament = photos.find(({ id }) => id === reference);
  return [
    ['this', photo.name] as const,
    ...(other && other.id !== reference ? [['other', other.name] as const] : []),
    ...(filament && filament.id !== photo.id ? [['reference', `${filament.name}, filament reference`] as const] : []),
  ];
}
