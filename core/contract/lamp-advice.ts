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

/** A string of a mix; figures that a refusal forbids, and those of a lamp that the mix does not need, are null. */
export interface MixLampEntry {
  readonly name: string;
  readonly luminanceShare: number;
  readonly currentMa: number | null;
  readonly resistorOhm: number | null;
  readonly nearestOhm: number | null;
  readonly currentWithNearestMa: number | null;
  readonly currentAtSupplyPlus10Ma: number | null;
  readonly resistorMw: number | null;
  readonly ratedMw: number | null;
  /** Share of the supply's volts over the resistor, 0..1. */
  readonly dropShare: number | null;
}

/** How far a try lay from the target. */
export interface TriedDistance {
  readonly missUv: number;
  readonly missSteps: number;
  /** k = 2; null where the colour of the try was stated and not measured. */
  readonly plusMinusSteps: number | null;
}

/** What `evendial mix --json` prints. */
export interface MixDocument {
  readonly format: 'evendial-mix';
  readonly version: 1;
  readonly lamps: readonly MixLampEntry[];
  /** Colour of the glow at the exact currents. */
  readonly reached: {
    readonly uPrime: number;
    readonly vPrime: number;
    readonly cctK: number | null;
    readonly duv: number;
  };
  readonly missUv: number;
  readonly missSteps: number;
  readonly missingHue?: string;
  /** Distance to the target with the resistors that can be bought; null without resistors. */
  readonly missWithNearestUv: number | null;
  readonly redPrintForecast: { readonly index: number; readonly low: number; readonly high: number } | null;
  /** The last try, where there is one. */
  readonly tried?: TriedDistance;
  /** After a measured try: what each current is multiplied by, the first lamp's factor taken as 1. */
  readonly correction?: { readonly factors: readonly number[]; readonly enough: boolean };
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
  readonly refusal?: { readonly code: string; readonly message: string; readonly remedy: string };
}
