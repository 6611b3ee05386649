import type { Figure } from './figure';
import type { ErrorEntry } from './readings';

/** A lamp by its number from the left, or all of them together. */
export type WhichLamp = 1 | 2 | 'all';

/** A lamp as the fit sees it, numbered from the left. */
export interface FittedLamp {
  readonly number: number;
  readonly positionMm: readonly [number, number, number];
  /** k = 2. */
  readonly plusMinusMm: readonly [number, number, number];
  readonly tiltDeg: readonly [number, number];
  /** Exponent of its cos^m lobe. */
  readonly lobe: number;
}

export interface PlacePrediction {
  readonly evenness: Figure;
  /** CSV of the light; null without --maps. */
  readonly map: string | null;
}

/** What `evendial place --json` prints. */
export interface PlaceDocument {
  readonly format: 'evendial-place';
  readonly version: 1;
  readonly evennessNow: Figure;
  readonly fit: { readonly rmsPercent: number; readonly lamps: readonly FittedLamp[] } | null;
  readonly predicted: PlacePrediction | null;
  readonly best?: {
    /** Of the lamp that is moved; of the first when all are. */
    readonly positionMm: readonly [number, number, number];
    /** Right, down, away from the viewer. */
    readonly byMm: readonly [number, number, number];
    readonly evenness: Figure;
  };
  /** Of lamps that were photographed one at a time: currents over those of their photos, the first kept. */
  readonly singleLamps?: {
    readonly names: readonly string[];
    readonly ratios: readonly number[];
    readonly bestRatios: readonly Figure[];
    readonly bestEvenness: Figure;
  };
  readonly cautions: readonly string[];
  readonly refusal?: ErrorEntry;
}
