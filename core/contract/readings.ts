import type { Figure } from './figure';
import type { Gate } from './gates';
import type { Encoding } from './light';

export interface ErrorEntry {
  readonly code: string;
  readonly message: string;
  readonly remedy: string;
}

/** A photo that could not be read, at its place among the readings. */
export interface FailedReading {
  readonly file: string;
  readonly error: ErrorEntry;
}

export interface CameraFacts {
  readonly make?: string;
  readonly model?: string;
  readonly exposureS?: number;
  readonly fNumber?: number;
  readonly iso?: number;
  readonly focalLengthMm?: number;
  readonly whiteBalance: 'manual' | 'auto' | 'unknown';
  /** Local ISO 8601 without zone, as the camera's clock showed. */
  readonly takenAt?: string;
}

export interface PhotoEntry {
  readonly file: string;
  readonly sha256: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly bitDepth: number;
  readonly format: string;
  readonly colourSpace: string;
  readonly colourSpaceAssumed: boolean;
  readonly encoding: Encoding;
  readonly camera: CameraFacts;
}

export interface OutlineEntry {
  readonly cornersPx: readonly (readonly [number, number])[];
  readonly cornersFrom: 'given' | 'search' | 'registration';
  readonly searchConfidence?: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly sizeKnown: boolean;
  readonly kind: 'rectangle' | 'ellipse' | 'polygon';
  readonly print: 'dark' | 'light' | 'none';
  readonly pxPerMm: number;
  readonly tiltDeg: number;
  readonly glowShare: number;
  readonly registrationMm?: number;
}

/** Luminance of a set of measuring points, relative to the brightest; null = no glow there. */
export interface SampledPoints {
  readonly minOverMax: Figure;
  readonly values: readonly (number | null)[] | null;
  /** Of each, k = 2; 0 of the brightest, which is 1 by definition. */
  readonly plusMinus: readonly (number | null)[] | null;
}

export interface EvennessEntry {
  readonly score: Figure;
  readonly words: string;
  readonly toReference: Figure;
  readonly visibleUnevenness: number | null;
  readonly minOverMax: Figure;
  readonly p5OverP95: Figure;
  readonly coefficientOfVariation: Figure;
  readonly ninePoint: SampledPoints;
  readonly fivePoint: SampledPoints;
  readonly thirteenPoint: SampledPoints;
  readonly steepestPercentPerMm: Figure;
  readonly leftOverRight: Figure;
  readonly topOverBottom: Figure;
}

export interface SpotEntry {
  readonly kind: 'hot' | 'dark';
  readonly xMm: number;
  readonly yMm: number;
  readonly plusMinusMm: number;
  readonly diameterMm: number;
  /** Light over the median of the glow; with `atLeast` what it exceeds (hot) or stays under (dark). */
  readonly ratioToGlow: number;
  /** k = 2; null with `atLeast`, as a bound has none. */
  readonly ratioPlusMinus: number | null;
  readonly atLeast: boolean;
  readonly elongation: number;
  readonly angleDeg: number;
  readonly lampSide?: string;
}

export interface LuminanceEntry {
  readonly glowMean: Figure;
  readonly cdM2: Figure;
  readonly ofReference: Figure;
  readonly clippedShare: number;
  readonly ambientShare: number | null;
}

export interface ColourEntry {
  readonly x: Figure;
  readonly y: Figure;
  readonly uPrime: Figure;
  readonly vPrime: Figure;
  readonly cctK: Figure;
  readonly duv: Figure;
  readonly spreadUv: Figure;
  readonly gradientUvPer10Mm: Figure;
  readonly toReferenceUv: Figure;
  readonly toReferenceDeltaE00: Figure;
  readonly outOfGamut: boolean;
  readonly verdict: string;
}

export interface RedPrintEntry {
  readonly maskFrom: 'reference' | 'lampOff' | 'printPhoto' | 'trials' | 'photo' | 'painted' | 'none';
  readonly strokeMm: number | null;
  readonly redness: Figure;
  readonly luminanceContrast: Figure;
  readonly index: Figure;
  readonly indexAgainst: 'reference' | 'typical' | null;
  readonly darkContrastKept: Figure;
  readonly visibilityRatio: Figure;
  readonly deltaE00: Figure;
  readonly words: string;
}

export interface MapPaths {
  readonly glowLuminance: string;
  readonly chromaticity: string;
  readonly printMask: string;
}

/** The figures computed from one photo of one window. */
export interface Reading {
  readonly name: string;
  readonly window: string;
  readonly photos: readonly PhotoEntry[];
  readonly outline: OutlineEntry;
  readonly gates: readonly Gate[];
  readonly evenness: EvennessEntry;
  readonly spots: readonly SpotEntry[];
  /** Why there are no spots to list, when the photo could not be searched for them. */
  readonly spotsReason?: string;
  readonly luminance: LuminanceEntry;
  readonly colour: ColourEntry;
  readonly redPrint: RedPrintEntry;
  readonly maps?: MapPaths;
  readonly timingMs: { readonly decode: number; readonly measure: number };
}

export interface ReadingsDocument {
  readonly format: 'evendial-readings';
  readonly version: 1;
  readonly readings: readonly (Reading | FailedReading)[];
  readonly reference?: readonly (Reading | FailedReading)[];
}
