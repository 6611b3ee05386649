import { stepsFromUvDistance } from '../colour/steps';
import type { MixRequest } from './lamp-mix';
import type { Correction } from './next-try';
import { warnDropShare } from './string-checks';
import type { StringPlan } from './strings';
import { directVolts, rippleVolts } from './supply';

export interface NotedMix {
  readonly request: MixRequest;
  readonly plans: readonly (StringPlan | null)[];
  readonly hue: string | null;
  readonly missUv: number;
  readonly correction: Correction | null;
  /** What preferred values change of the colour, u'v'. */
  readonly roundingUv: number;
}

function supplyNotes({ supply }: MixRequest, plans: readonly (StringPlan | null)[]): string[] {
  const notes: string[] = [];
  const { design } = directVolts(supply);
  if (supply.voltsWithoutLamp === null) {
    notes.push(
      'Volts with the lamp out are not given: a winding may rise by a fifth or more; measure them before wiring.',
    );
  } else if (supply.voltsWithoutLamp > supply.volts) {
    notes.push(
      `Resistors are made for the volts with the lamp out, ${design.toFixed(1)} V direct: LEDs hardly load the supply.`,
    );
  }
  const currentMa = plans.reduce((sum, plan) => sum + (plan?.currentWithNearestMa ?? 0), 0);
  if (supply.kind === 'ac' && currentMa > 0) {
    const ripple = rippleVolts(currentMa, supply.hz, supply.capacitorUf).toFixed(2);
    notes.push(
      `Bridge and ${supply.capacitorUf} uF: ${design.toFixed(1)} V direct, ripple ${ripple} V; use a capacitor of twice these volts.`,
    );
  }
  return notes;
}

function stringNotes({ leds }: MixRequest, plans: readonly (StringPlan | null)[]): string[] {
  return plans.flatMap((plan, i) => {
    const { name, maxMa } = leds[i];
    if (plan === null) return [];
    const notes: string[] = [];
    if (plan.dropShare < warnDropShare) {
      notes.push(
        `${name}: the resistor has only ${(100 * plan.dropShare).toFixed(0)} % of the volts, so the current follows every change of the supply.`,
      );
    }
    if (plan.currentAtSupplyPlus10Ma > maxMa) {
      notes.push(
        `${name}: at a supply 10 % higher it would carry ${plan.currentAtSupplyPlus10Ma.toFixed(1)} mA, over its maximum; take less current.`,
      );
    }
    return notes;
  });
}

/** What preferred values may change of the colour without a word, u'v': 2 steps. Our own choice. */
const widestRoundingUv = 0.0022;

function correctionNote({ measured }: MixRequest, { isEnough, isOfBoth }: Correction): string {
  if (isEnough) return 'The try is as near as resistors can bring it.';
  if (isOfBoth) return 'Currents are corrected by what both tries show of a change; measure again after it.';
  if (measured?.currentsMa) return 'Currents are corrected as the measured try asks for; measure again after it.';
  return 'Currents are corrected by 0.7 of what the measured try asks for, since those that flowed are not given; measure again after it.';
}

/** As rendered tries were: shown at half of their distance at worst. */
const cutShortNote =
  "A photo cuts a colour short that lies outside its file's colour space: the try may be twice as far from the target as it looks. A file in Adobe RGB, or a TIFF from raw, shows it.";

/** What to know about a mix, in plain sentences. @rule LA8, LA13, LA14, LA15 */
export function mixNotes({ request, plans, hue, missUv, correction, roundingUv }: NotedMix): string[] {
  const notes: string[] = [];
  if (hue !== null) {
    const steps = stepsFromUvDistance(missUv).toFixed(0);
    notes.push(
      `The target is out of reach of these lamps by ${steps} steps; ${hue} is missing. This is the nearest mix.`,
    );
  }
  const idle = request.leds.filter((_, i) => plans[i] === null).map(({ name }) => name);
  if (idle.length > 0 && plans.some((plan) => plan !== null)) notes.push(`Not needed: ${idle.join(', ')}.`);
  if (request.dye === undefined) notes.push('The scale is taken as clear: state --scale-dye when it is coloured.');
  if (request.currentMa === null)
    notes.push('No --current is given: every string keeps to half its maximum, for a closed, warm case.');
  if (correction !== null) {
    notes.push(correctionNote(request, correction));
    if (request.measured?.before && !correction.isOfBoth) {
      notes.push(
        'The try before tells nothing: its currents differ by less than 10 %, its photo does not show the change, or a lamp is missing in it. Only the last try counts.',
      );
    }
    if (request.target.isCutShort || request.measured?.glow.isCutShort) notes.push(cutShortNote);
    notes.push(
      'A camera bends colours of LEDs: take the target from a filament photo with the same settings, or go by eye.',
    );
  }
  if (roundingUv > widestRoundingUv && request.series !== 'E96') {
    notes.push(
      `With ${request.series} values the colour comes out ${stepsFromUvDistance(roundingUv).toFixed(0)} steps beside the mix: take --e-series E96, or two resistors in series.`,
    );
  }
  return [...notes, ...supplyNotes(request, plans), ...stringNotes(request, plans)];
}
