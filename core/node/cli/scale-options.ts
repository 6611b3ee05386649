import type { Spectrum } from '../../colour/spectra';
import { planckSpectrum } from '../../colour/spectra';
import { clearScale, dyeTransmission, usualPigments, type Pigment } from '../../advice/families/scale-models';
import { referenceFilamentK } from '../../advice/families/lamp-families';
import { fitDye } from '../../advice/scale-dye';
import { stepsFromUvDistance } from '../../colour/steps';
import { usageError } from './arguments';
import { numberOf } from './option-values';
import { readGlowColour } from './reading-file';
import type { Shell } from './shell';

/** A ground as an option describes it; null transmission: clear. */
export interface StatedDye {
  readonly transmission: Spectrum | null;
  /** What to say about it; null: nothing. */
  readonly note: string | null;
}

/** `--filament 2400`, K. @throws AppError FILAMENT_INVALID */
export function readFilament(text: string | undefined): number {
  if (text === undefined) return referenceFilamentK;
  const kelvin = numberOf(text.trim().replace(/\s*K$/i, ''));
  if (kelvin === null || kelvin < 1500 || kelvin > 3500) {
    const remedy = 'Give the colour temperature of the old lamp in kelvin, 1500 to 3500.';
    throw usageError(`--filament is ${JSON.stringify(text)}`, remedy, 'FILAMENT_INVALID');
  }
  return kelvin;
}

/** `--pigment 595,8`: edge and width in nm; left out: the usual red prints. @throws AppError PIGMENT_INVALID */
export function readPigments(text: string | undefined): readonly Pigment[] {
  if (text === undefined) return usualPigments;
  const parts = text.split(',').map((part) => numberOf(part.trim()));
  const [edgeNm, widthNm] = parts;
  const isGood = parts.length === 2 && edgeNm !== null && widthNm !== null;
  if (!isGood || edgeNm < 560 || edgeNm > 680 || widthNm < 1 || widthNm > 40) {
    const remedy = '--pigment 595,8: middle of the edge (560 to 680 nm) and its width (1 to 40 nm).';
    throw usageError(`--pigment is ${JSON.stringify(text)}`, remedy, 'PIGMENT_INVALID');
  }
  return [{ edgeNm, widthNm }];
}

/**
 * A scale's dye: `none`, the edge of an amber dye in nm, or a reading of the scale lit by its filament lamp, to which the dye is
 * fitted.
 *
 * @throws AppError DYE_INVALID; else as `readGlowColour`
 */
export async function readDye(option: string, text: string, filamentK: number, shell: Shell): Promise<StatedDye> {
  if (text.trim().toLowerCase() === 'none') return { transmission: null, note: null };
  const edgeNm = numberOf(text.trim().replace(/\s*nm$/i, ''));
  if (edgeNm !== null) {
    if (edgeNm >= 400 && edgeNm <= 600) return { transmission: dyeTransmission(edgeNm), note: null };
    const remedy = 'Give none, the edge of an amber dye (400 to 600 nm; light 520, deep 545), or READINGS.json#NAME.';
    throw usageError(`--${option} is ${JSON.stringify(text)}`, remedy, 'DYE_INVALID');
  }
  const dye = fitDye(await readGlowColour(option, text, shell), planckSpectrum(filamentK));
  const steps = stepsFromUvDistance(dye.missUv);
  const fitted = `The scale's dye is taken from the reading as if a ${filamentK} K filament lit it: edge at ${dye.edgeNm} nm`;
  const note =
    steps <= 5
      ? `${fitted}.`
      : `${fitted}; it misses the glow by ${steps.toFixed(0)} steps, so this scale is no plain amber.`;
  return { transmission: dye.transmission, note };
}

/** Grounds for `lamps`: what `--dye` says, else clear and light amber. */
export async function readGrounds(
  text: string | undefined,
  filamentK: number,
  shell: Shell,
): Promise<readonly Spectrum[]> {
  if (text === undefined) return [clearScale, dyeTransmission(520)];
  return [(await readDye('dye', text, filamentK, shell)).transmission ?? clearScale];
}
