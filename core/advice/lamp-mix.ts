import { AppError } from '../base/errors';
import type { Triple } from '../colour/matrix3';
import { planckSpectrum, type Spectrum } from '../colour/spectra';
import { stepsFromUvDistance, uvDistance } from '../colour/steps';
import { colourTemperatureOf } from '../colour/temperature';
import type { MixDocument, MixLampEntry } from '../contract/lamp-advice';
import { lampCautions } from './cautions';
import { forecastRedPrint } from './families/forecast';
import { clearScale, dyeTransmission, usualPigments } from './families/scale-models';
import { isWhiteLed, ledSpectrum, ledXyz, lightPerMa, type Led } from './led';
import { missingHue } from './missing-hue';
import { asShares, colourOfMix, currentsOfMix, mixOf } from './mix';
import { mixNotes } from './mix-notes';
import { sumOfSpectra } from './model-spectra';
import { correctionOf, type EarlierTry } from './next-try';
import type { ResistorSeries } from './resistors';
import { lightRefusal, stringRefusal } from './string-checks';
import { planString, type StringPlan } from './strings';
import { directVolts, type Supply } from './supply';
import { triedDistance, type ToldGlow } from './tried-distance';

export interface MixRequest {
  /** Two or three. */
  readonly leds: readonly Led[];
  /** All lenses are alike, so that mcd stand for light. */
  readonly isSameLens: boolean;
  readonly supply: Supply;
  /** The glow that is wanted, as it leaves the scale. */
  readonly target: ToldGlow;
  /** Current of the strongest string; null: each at most half its maximum. */
  readonly currentMa: number | null;
  readonly series: ResistorSeries;
  /** The scale's dye; null: a clear scale; undefined: not stated. */
  readonly dye?: Spectrum | null;
  readonly filamentK: number;
  /** The last try. */
  readonly measured: MeasuredTry | null;
}

export interface MeasuredTry {
  readonly glow: ToldGlow;
  /** Of each string, mA, above 0; null: those of a first try. */
  readonly currentsMa: readonly number[] | null;
  /** The try before it; counts only beside its own currents. */
  readonly before: { readonly glow: ToldGlow; readonly currentsMa: readonly number[] } | null;
}

/** More than this from the target is a miss that has a hue: 5 steps. */
const missFrom = 0.0055;

function coloursOf({ leds, dye }: MixRequest): Triple[] {
  return leds.map((led) => {
    const xyz = ledXyz(led.colour, dye ?? null);
    if (xyz !== null) return xyz;
    const remedy = 'Give dominantNm= or spectrum=, or leave --scale-dye out.';
    throw new AppError(
      'usage',
      'LED_SPECTRUM_UNKNOWN',
      `${led.name}: no LED model has this xy, so its light behind a dye is not known`,
      remedy,
    );
  });
}

/**
 * What a file cuts short loses one of its three channels: two lamps still have their one ratio, three not their two.
 *
 * @rule LA18
 */
function cutShortRefusal(): AppError {
  const message = "the photos do not tell three lamps apart: the glow lies outside the file's colour space";
  const remedy =
    'Photograph target and try into a wider colour space (Adobe RGB, or a TIFF from raw), tune two of the lamps first, or go by eye.';
  return new AppError('refusal', 'COLOUR_CUT_SHORT', message, remedy);
}

function earlierTry({ currentsMa, before }: MeasuredTry): EarlierTry | null {
  if (currentsMa === null || before === null) return null;
  return { glow: before.glow, currentRatios: currentsMa.map((mA, i) => mA / before.currentsMa[i]) };
}

/** The red print under the mix; null when a lamp's spectrum is not known. */
function forecastOf({ leds, dye, filamentK }: MixRequest, shares: readonly number[], colours: readonly Triple[]) {
  const spectra = leds.map((led) => ledSpectrum(led.colour));
  if (spectra.some((spectrum) => spectrum === null)) return null;
  // Before the dye: its share of the glow over what the dye lets through.
  const parts = spectra.map((spectrum, i) => ({ spectrum: spectrum!, amount: shares[i] / colours[i][1] }));
  const grounds = dye === undefined ? [clearScale, dyeTransmission(520)] : [dye ?? clearScale];
  return forecastRedPrint([sumOfSpectra(parts)], {
    pigments: usualPigments,
    grounds,
    filament: planckSpectrum(filamentK),
  });
}

function entryOf(led: Led, luminanceShare: number, currentMa: number | null, plan: StringPlan | null): MixLampEntry {
  return {
    name: led.name,
    luminanceShare,
    currentMa,
    resistorOhm: plan?.resistorOhm ?? null,
    nearestOhm: plan?.nearestOhm ?? null,
    currentWithNearestMa: plan?.currentWithNearestMa ?? null,
    currentAtSupplyPlus10Ma: plan?.currentAtSupplyPlus10Ma ?? null,
    resistorMw: plan?.resistorMw ?? null,
    ratedMw: plan?.ratedMw ?? null,
    dropShare: plan?.dropShare ?? null,
  };
}

/**
 * Advice on a mix of two or three LEDs: shares, currents and resistors for a target, its colour, the red print, notes, cautions.
 *
 * No resistor is given when a check fails; the refusal says why. An unreachable target is no refusal: the nearest mix is given.
 *
 * @throws AppError LED_SPECTRUM_UNKNOWN
 * @source see the parts
 * @rule LA13, LA14, LA15, LA16, LA19
 */
export function adviseMix(request: MixRequest): MixDocument {
  const { leds, supply, target, series, measured } = request;
  const colours = coloursOf(request);
  const ideal = mixOf(colours, target);
  const isComparable = leds.every((led) => led.light?.kind === 'intensity');
  const lights = leds.map((led) => lightPerMa(led, request.isSameLens && isComparable));
  const perMa = lights.map((light, i) => (light ?? NaN) * colours[i][1]);
  let refusal = lightRefusal(leds, lights);

  let shares = ideal.luminanceShares;
  const ran = measured?.currentsMa ?? null;
  // Without the light of each lamp nothing is printed: shares of equal currents keep the arithmetic whole.
  const flowed = ran && asShares(ran.map((mA, i) => mA * (Number.isFinite(perMa[i]) ? perMa[i] : 1)));
  const lamps = leds.map(({ colour }, i) => ({ colour: colours[i], isWhite: isWhiteLed(colour) }));
  const corrected = measured === null ? null : correctionOf(ideal, { lamps, measured: measured.glow, ran: flowed, earlier: earlierTry(measured) }, target.isCutShort); // prettier-ignore
  const isOfThree = leds.length === 3 && ideal.luminanceShares.every((share) => share > 0);
  if (measured !== null && target.isCutShort && isOfThree) refusal ??= cutShortRefusal();
  if (corrected instanceof AppError) refusal ??= corrected;
  const correction = corrected instanceof AppError ? null : corrected;
  if (correction !== null) {
    const base = flowed !== null && refusal === null ? flowed : shares;
    shares = asShares(base.map((share, i) => share * correction.factors[i]));
  }

  const { design, least } = directVolts(supply);
  const limits = leds.map((led) => request.currentMa ?? led.maxMa / 2);
  const currents = refusal === null ? currentsOfMix(shares, perMa, limits) : null;
  if (currents !== null) {
    refusal = stringRefusal(
      leds.map((led, i) => ({ led, currentMa: currents[i] })),
      least,
      design,
    );
  }
  const plans = leds.map(({ inSeries, forwardV, maxMa }, i) =>
    currents === null || refusal !== null || currents[i] === 0
      ? null
      : planString({ supplyV: design, ledsV: inSeries * forwardV, currentMa: currents[i], maxMa, series }),
  );
  const got =
    refusal === null
      ? colourOfMix(
          plans.map((plan, i) => (plan?.currentWithNearestMa ?? 0) * perMa[i]),
          colours,
        )
      : null;
  const exact = currents === null ? null : colourOfMix(currents.map((mA, i) => mA * perMa[i]), colours); // prettier-ignore
  const roundingUv = got === null || exact === null ? 0 : uvDistance(got, exact);
  const hue = ideal.missUv > missFrom ? missingHue(ideal.reached, target) : null;
  const temperature = colourTemperatureOf(ideal.reached)!;
  return {
    format: 'evendial-mix',
    version: 1,
    lamps: leds.map((led, i) => entryOf(led, shares[i], refusal === null ? (currents?.[i] ?? null) : null, plans[i])),
    reached: { ...ideal.reached, ...temperature },
    missUv: ideal.missUv,
    missSteps: stepsFromUvDistance(ideal.missUv),
    ...(hue === null ? {} : { missingHue: hue }),
    missWithNearestUv: got === null || correction !== null ? null : uvDistance(got, target),
    redPrintForecast: forecastOf(request, ideal.luminanceShares, colours),
    ...(measured === null ? {} : { tried: triedDistance(measured.glow, target) }),
    ...(correction === null
      ? {}
      : {
          correction: {
            factors: correction.factors.map((one) => one / correction.factors[0]),
            enough: correction.isEnough,
          },
        }),
    notes: mixNotes({ request, plans, hue, missUv: ideal.missUv, correction, roundingUv }),
    cautions: lampCautions,
    ...(refusal === null ? {} : { refusal: { code: refusal.code, message: refusal.message, remedy: refusal.remedy } }),
  };
}
