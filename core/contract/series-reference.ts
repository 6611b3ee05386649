import type { SeriesFile, SeriesTrial } from './series';

/** Corners of the reference: its own, else those of a trial of the same photo. */
export function referenceCorners(file: SeriesFile): SeriesTrial['corners'] {
  if (!file.reference) return undefined;
  const { corners: own, photos: ownPhotos } = file.reference;
  const shared = (file.trials ?? []).find((one) => one.photos[0].file === ownPhotos[0].file)?.corners;
  return own ?? (file.reference.window === undefined ? undefined : shared);
}
