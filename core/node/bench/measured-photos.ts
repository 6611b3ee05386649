import { AppError } from '../../base/errors';
import { compareSeries } from '../../compare/compare-series';
import type { ShownWindow } from '../../compare/find-matches';
import type { PhotoId } from '../../contract/bench';
import type { Comparison } from '../../contract/comparison';
import type { MeasuredWindow } from '../../contract/measure';

/** What was last measured of each photo, without its maps: what comparing them needs. */
export class MeasuredPhotos {
  private readonly last = new Map<PhotoId, Omit<ShownWindow, 'role'>>();

  keep(photo: PhotoId, { reading, facts, witness }: MeasuredWindow): void {
    // A photo's name may be that of another; its id is its own.
    const named = { ...reading, name: photo };
    this.last.set(photo, { reading: named, facts, witness: witness && 'xyz' in witness ? witness : null });
  }

  forget(photo: PhotoId): void {
    this.last.delete(photo);
  }

  private shown(photo: PhotoId, role: ShownWindow['role']): ShownWindow {
    const found = this.last.get(photo);
    if (found) return { role, ...found };
    const message = 'A photo has no reading to compare.';
    throw new AppError('usage', 'PHOTO_NOT_MEASURED', message, 'Measure it first.');
  }

  /**
   * Photos against each other, as the command line compares the trials of a series.
   *
   * @param reference  not ranked; null: none
   * @throws AppError PHOTO_NOT_MEASURED
   * @rule BE15
   */
  compare(photos: readonly PhotoId[], reference: PhotoId | null): Comparison {
    const trials = photos.filter((photo) => photo !== reference).map((photo) => this.shown(photo, 'trial'));
    const shown = reference === null ? trials : [this.shown(reference, 'reference'), ...trials];
    return compareSeries(['window'], shown, []);
  }
}
