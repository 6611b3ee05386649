import type { ComparableFacts } from '../contract/comparable';
import type { WitnessPatch } from '../contract/measure';
import type { Reading } from '../contract/readings';

/** A reading's figures; not how long they took. */
export type ComparedReading = Omit<Reading, 'timingMs' | 'maps'>;

/** One window of one photo, as far as others are compared with it. */
export interface ComparedWindow {
  readonly reading: ComparedReading;
  readonly facts: ComparableFacts;
  /** null: no patch was named, or it could not be measured. */
  readonly witness: WitnessPatch | null;
}
