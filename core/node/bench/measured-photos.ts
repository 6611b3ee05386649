import { AppError } from '../../base/errors';
import { compareInView, compareSeries } from '../../compare/compare-series';
import type { ShownWindow } from '../../compare/find-matches';
import { matchInPhoto, matchOfPhotos } from '../../compare/matches';
import type { MeasureAsked, PhotoId } from '../../contract/bench';
import type { Comparison, Match } from '../../contract/comparison';
import type { MeasuredWindow } from '../../contract/measure';

/** A reading that a photo has, with what was asked for it. */
export interface KeptReading {
  readonly asked: MeasureAsked;
  /** Without its maps. */
  readonly measured: MeasuredWindow;
  /** ISO 8601, UTC. */
  readonly measuredAt: string;
}

/** What was last measured of each photo, without its maps: what comparing and filing them needs. */
export class MeasuredPhotos {
  private readonly last = new Map<PhotoId, KeptReading>();

  /** @param now  ISO 8601, UTC */
  constructor(private readonly now: () => string) {}

  keep(asked: MeasureAsked, measured: MeasuredWindow): KeptReading {
    const kept = { asked, measured: { ...measured, maps: null }, measuredAt: this.now() };
    this.last.set(asked.photo, kept);
    return kept;
  }

  forget(photo: PhotoId): void {
    this.last.delete(photo);
  }

  /** The reading that a photo has. */
  lastOf(photo: PhotoId): KeptReading | null {
    return this.last.get(photo) ?? null;
  }

  private shown(photo: PhotoId, role: ShownWindow['role']): ShownWindow {
    const found = this.last.get(photo);
    if (found) {
      const { reading, facts, witness } = found.measured;
      // A photo's name may be that of another; its id is its own.
      const named = { ...reading, name: photo };
      return { role, reading: named, facts, witness: witness && 'xyz' in witness ? witness : null };
    }
    const message = 'A photo has no reading to compare.';
    throw new AppError('usage', 'PHOTO_NOT_MEASURED', message, 'Measure it first.');
  }

  /**
   * Photos against each other, as the command line compares the trials of a series.
   *
   * @param reference  not ranked; null: none
   * @param inView     only this photo's pairs are given, and much sooner; left out: all
   * @throws AppError PHOTO_NOT_MEASURED
   * @rule BE15
   */
  compare(photos: readonly PhotoId[], reference: PhotoId | null, inView?: PhotoId): Comparison {
    const trials = photos.filter((photo) => photo !== reference).map((photo) => this.shown(photo, 'trial'));
    const shown = reference === null ? trials : [this.shown(reference, 'reference'), ...trials];
    return inView === undefined ? compareSeries(['window'], shown, []) : compareInView('window', shown, inView);
  }

  /**
   * How alike two windows are, each in a photo of its own, or both in one photo that lies on the bench twice.
   *
   * @throws AppError PHOTO_NOT_MEASURED
   * @rule BE15
   */
  match(one: PhotoId, other: PhotoId): Match {
    const [a, b] = [one, other].map((photo) => {
      const shown = this.shown(photo, 'trial');
      return { ...shown, reading: { ...shown.reading, window: photo } };
    });
    const isOnePhoto = a.reading.photos[0].sha256 === b.reading.photos[0].sha256;
    return isOnePhoto ? matchInPhoto(one, a, b) : matchOfPhotos(one, a, b);
  }
}
