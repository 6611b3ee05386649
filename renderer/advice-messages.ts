import type { Plane } from '../core/base/plane';
import type { MixRequest } from '../core/advice/lamp-mix';
import type { ToldGlow } from '../core/advice/tried-distance';
import type { PlaceLimits } from '../core/advice/place/forecast-move';
import type { Figure } from '../core/contract/figure';
import type { FamilyEntry, MixDocument } from '../core/contract/lamp-advice';
import type { NextDocument } from '../core/contract/next-advice';
import type { FittedLamp, WhichLamp } from '../core/contract/place-advice';
import type { ErrorEntry, Reading } from '../core/contract/readings';
import type { ShadeMount } from '../core/contract/shade-advice';

/** What the advice worker is told of a measured window. */
export interface AdvisedWindow {
  readonly name: string;
  readonly score: Figure;
  readonly spots: Reading['spots'];
  readonly isSizeKnown: boolean;
  readonly glowLuminance: Plane;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly isExposureNormalised: boolean;
}

/** Light that a change would leave, with what it scores. */
export interface Forecast {
  readonly evenness: Figure;
  /** Every cell above 0, on its own grid. */
  readonly light: Plane;
  readonly cellsPerMm: number;
}

/** `evenness` is that of a shade on its marks. */
export interface ShadeForecast extends Forecast {
  readonly atWorst: Figure;
  readonly worstMount: ShadeMount;
  readonly lightLoss: number;
  /** Why no such shade is offered; null when it is. */
  readonly refusal: ErrorEntry | null;
}

/** A mix as the form asks it. */
export type AskedMix = Omit<MixRequest, 'target' | 'dye' | 'isSameLens'> & {
  /** A filament lamp behind the scale; null: the glow of a photo. */
  readonly targetK: number | null;
  /** The glow of the photo that is the target; null unless targetK is. */
  readonly targetGlow: ToldGlow | null;
  readonly isDyed: boolean;
};

/** Question -> what it asks and answers. All but `mix` and `families` are about the window told last. */
export interface AdviceQuestions {
  readonly window: { readonly asks: AdvisedWindow; readonly answers: NextDocument };
  readonly lamps: {
    readonly asks: Record<string, never>;
    readonly answers: { readonly rmsPercent: number; readonly lamps: readonly FittedLamp[] };
  };
  readonly move: {
    readonly asks: {
      readonly lamp: WhichLamp;
      readonly byMm: readonly [number, number, number];
      readonly tiltDeg: readonly [number, number];
    };
    readonly answers: Forecast;
  };
  readonly bestPlace: {
    readonly asks: { readonly lamp: WhichLamp; readonly limits: PlaceLimits };
    readonly answers: { readonly byMm: readonly [number, number, number] };
  };
  readonly shade: {
    /** Gap null: not known. */
    readonly asks: { readonly gapMm: number | null; readonly strength: number };
    readonly answers: ShadeForecast;
  };
  readonly mix: { readonly asks: AskedMix; readonly answers: MixDocument };
  readonly families: {
    readonly asks: { readonly isDyed: boolean; readonly filamentK: number };
    readonly answers: readonly FamilyEntry[];
  };
}
export type AdviceQuestion = keyof AdviceQuestions;

export type ToAdviceWorker = {
  [Name in AdviceQuestion]: { readonly id: number; readonly name: Name; readonly asks: AdviceQuestions[Name]['asks'] };
}[AdviceQuestion];

/** An answer, or the user's error in its place. */
export type FromAdviceWorker =
  | { readonly id: number; readonly answer: AdviceQuestions[AdviceQuestion]['answers'] }
  | { readonly id: number; readonly refusal: ErrorEntry };
