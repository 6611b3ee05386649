import { AppError } from '../base/errors';
import type { SeriesFile, SeriesReference, SeriesTrial } from './series';

/** Corners of the reference: its own, else those of a trial of the same photo. */
export function referenceCorners(file: SeriesFile): SeriesTrial['corners'] {
  if (!file.reference) return undefined;
  const { corners: own, photos: ownPhotos } = file.reference;
  const shared = (file.trials ?? []).find((one) => one.photos[0].file === ownPhotos[0].file)?.corners;
  return own ?? (file.reference.window === undefined ? undefined : shared);
}

function refuse(called: string, place: string, instead: string): never {
  throw new AppError('usage', 'NOT_BUILT_YET', `${called}: ${place} is not built yet`, instead);
}

function assertPhotosBuilt(called: string, place: string, one: SeriesTrial | SeriesReference): void {
  if (one.photos.length > 1) {
    refuse(
      called,
      `${place}.photos with more than one entry`,
      'Name one photo a trial; give each exposure its own trial.',
    );
  }
}

/**
 * Refuses, by its place, what the contract of the series file promises and this version cannot do yet.
 *
 * @throws AppError NOT_BUILT_YET
 * @rule SE3
 */
export function assertBuilt(file: SeriesFile, called: string): void {
  if (file.reference) assertPhotosBuilt(called, 'reference', file.reference);
  (file.trials ?? []).forEach((trial, i) => assertPhotosBuilt(called, `trials[${i}]`, trial));
}
