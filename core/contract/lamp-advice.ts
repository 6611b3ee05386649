/** A lamp family on a scale, as `evendial lamps` gives it: index in per cent of the filament's redness. */
export interface FamilyEntry {
  readonly name: string;
  readonly index: number;
  readonly low: number;
  readonly high: number;
  readonly uPrime: number;
  readonly vPrime: number;
  readonly words: string;
}

/** What `evendial lamps --json` prints. */
export interface LampsDocument {
  readonly format: 'evendial-lamps';
  readonly version: 1;
  readonly families: readonly FamilyEntry[];
}
