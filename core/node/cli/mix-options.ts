import { reratedLamp } from '../../advice/filament';
import type { MixRequest } from '../../advice/lamp-mix';
import type { Supply } from '../../advice/supply';
import type { ToldGlow } from '../../advice/tried-distance';
import { filamentGlow } from '../../advice/usual-questions';
import { uv1976FromXy } from '../../colour/chromaticity';
import type { Spectrum } from '../../colour/spectra';
import { usageError, type GivenArguments } from './arguments';
import { readLamp, readXy, spectrumFilesOf } from './mix-lamp';
import { numberOf, readChoice } from './option-values';
import { readGlowColour, readNamedFile } from './reading-file';
import { readDye, readFilament } from './scale-options';
import type { Shell } from './shell';

const seriesOf = { e12: 'E12', e24: 'E24', e96: 'E96' } as const;

type Values = GivenArguments['values'];

/** A number within limits, or null when the option is not given. @throws AppError OPTION_VALUE */
function numberOption(values: Values, option: string, low: number, high: number): number | null {
  const text = values.get(option);
  if (text === undefined) return null;
  const value = numberOf(text.trim());
  if (value === null || value < low || value > high) {
    throw usageError(`--${option} is ${JSON.stringify(text)}`, `Give a number, ${low} to ${high}.`, 'OPTION_VALUE');
  }
  return value;
}

function readSupply(values: Values): Supply {
  const [dc, ac] = [numberOption(values, 'supply', 1, 60), numberOption(values, 'supply-ac', 2, 42)];
  const voltsWithoutLamp = numberOption(values, 'supply-without-lamp', 1, 60);
  const [hz, capacitorUf] = [numberOption(values, 'hz', 40, 70), numberOption(values, 'capacitor', 1, 1e5)];
  if ((dc === null) === (ac === null)) {
    throw usageError(
      'give one of --supply and --supply-ac',
      '--supply 12 (direct volts) or --supply-ac 6.3 --hz 50.',
      'SUPPLY_INVALID',
    );
  }
  if (dc !== null) {
    if (hz !== null || capacitorUf !== null) {
      throw usageError(
        '--hz and --capacitor go with --supply-ac',
        'Leave them out, or give --supply-ac.',
        'SUPPLY_INVALID',
      );
    }
    return { kind: 'dc', volts: dc, voltsWithoutLamp };
  }
  if (hz === null) throw usageError('--supply-ac needs --hz', 'Give --hz 50 or --hz 60.', 'SUPPLY_INVALID');
  return { kind: 'ac', volts: ac!, voltsWithoutLamp, hz, capacitorUf: capacitorUf ?? 470 };
}

const ratedForm = /^([\d.]+)\s*K(?:\s+([\d.]+)\s*\/\s*([\d.]+)\s*V)?$/i;

/** The glow that is wanted, and what to say of it. */
async function readTarget(
  text: string,
  dye: Spectrum | null,
  shell: Shell,
): Promise<{ target: ToldGlow; note: string | null }> {
  if (/^xy=/i.test(text))
    return { target: uv1976FromXy(readXy(text.slice(3), '--target', 'TARGET_INVALID')), note: null };
  const rated = ratedForm.exec(text.trim());
  if (rated === null && !/\.json(#|$)/i.test(text)) {
    const remedy =
      'Give 2400K, "2700K 6.3/8V" (rated K, volts run at, rated volts), xy=0.46,0.41, or READINGS.json#NAME.';
    throw usageError(`--target is ${JSON.stringify(text)}`, remedy, 'TARGET_INVALID');
  }
  if (rated === null) return { target: await readGlowColour('target', text, shell), note: null };
  const [kelvin, volts, ratedVolts] = rated
    .slice(1)
    .map((part) => (part === undefined ? null : (numberOf(part) ?? NaN)));
  const ratio = volts === null || ratedVolts === null ? 1 : volts / ratedVolts;
  const lamp = kelvin! > 0 && ratio > 0 && Number.isFinite(ratio) ? reratedLamp(kelvin!, ratio, 1) : null;
  if (lamp === null || !(lamp.cctK >= 1000 && lamp.cctK <= 20_000)) {
    throw usageError(
      `--target is ${JSON.stringify(text)}`,
      'Give a colour temperature of 1000 to 20000 K.',
      'TARGET_INVALID',
    );
  }
  const target = filamentGlow(lamp.cctK, dye);
  const drawnOut = lamp.isExtrapolated ? '; so far from the rated volts the law is drawn out' : '';
  const range = `${lamp.lowK.toFixed(0)} to ${lamp.highK.toFixed(0)} K${drawnOut}`;
  return { target, note: volts === null ? null : `The old lamp is taken as ${lamp.cctK.toFixed(0)} K (${range}).` };
}

/** Currents beside a try, mA; null when they are not given. @throws AppError OPTION_VALUE */
function readCurrents(values: Values, of: string, lamps: number): number[] | null {
  const option = `${of}-currents`;
  const text = values.get(option);
  if (text === undefined) return null;
  if (!values.has(of)) throw usageError(`--${option} goes with --${of}`, 'Give both, or neither.', 'OPTION_VALUE');
  const currentsMa = text.split(',').map((part) => numberOf(part.trim()) ?? NaN);
  if (currentsMa.length !== lamps || !currentsMa.every((mA) => mA > 0)) {
    const remedy = 'Give the mA of each string of that try, in the order of the lamps: 10,3.8.';
    throw usageError(`--${option} is ${JSON.stringify(text)}`, remedy, 'OPTION_VALUE');
  }
  return currentsMa;
}

async function readMeasured(values: Values, lamps: number, shell: Shell): Promise<MixRequest['measured']> {
  const [last, before] = [values.get('measured'), values.get('before')];
  const [currentsMa, beforeMa] = [readCurrents(values, 'measured', lamps), readCurrents(values, 'before', lamps)];
  if (before !== undefined && (currentsMa === null || beforeMa === null)) {
    const remedy =
      'Give --measured, --measured-currents and --before-currents too: the change from one to the other counts.';
    throw usageError('--before needs the last try and the currents of both', remedy, 'OPTION_VALUE');
  }
  if (last === undefined) return null;
  return {
    glow: await readGlowColour('measured', last, shell),
    currentsMa,
    before:
      before === undefined || beforeMa === null
        ? null
        : { glow: await readGlowColour('before', before, shell), currentsMa: beforeMa },
  };
}

/** What `mix` was asked, and what to say of how it was read. @throws AppError of kind usage @rule LA17 */
export async function readMix(
  { values, flags, lists, files }: GivenArguments,
  shell: Shell,
): Promise<{ request: MixRequest; notes: string[] }> {
  const help = "'evendial help mix' shows an example.";
  if (files.length > 0) throw usageError(`mix takes no ${JSON.stringify(files[0])}`, help);
  const lamps = lists.get('lamp') ?? [];
  if (lamps.length < 2 || lamps.length > 3) throw usageError(`mix takes 2 or 3 lamps, not ${lamps.length}`, help);
  const texts = new Map<string, string>();
  for (const file of spectrumFilesOf(lamps)) texts.set(file, await readNamedFile('lamp', file, shell));
  const leds = lamps.map((text, index) => readLamp(text, index, texts));
  const repeated = leds.find(({ name }, i) => leds.findIndex((other) => other.name === name) !== i);
  if (repeated)
    throw usageError(
      `two lamps are named ${JSON.stringify(repeated.name)}`,
      'Give each a name of its own.',
      'LAMP_INVALID',
    );
  const target = values.get('target');
  if (target === undefined)
    throw usageError('--target is missing', 'Give --target 2400K, xy=0.46,0.41 or READINGS.json#NAME.');
  const filamentK = readFilament(values.get('filament'));
  const stated = values.get('scale-dye');
  const dye = stated === undefined ? null : await readDye('scale-dye', stated, filamentK, shell);
  const aim = await readTarget(target, dye?.transmission ?? null, shell);
  const request: MixRequest = {
    leds,
    isSameLens: flags.has('same-lens'),
    supply: readSupply(values),
    target: aim.target,
    currentMa: numberOption(values, 'current', 0.1, 5000),
    series: seriesOf[readChoice('e-series', values.get('e-series') ?? 'e24', ['e12', 'e24', 'e96'] as const)],
    ...(dye === null ? {} : { dye: dye.transmission }),
    filamentK,
    measured: await readMeasured(values, leds.length, shell),
  };
  return { request, notes: [aim.note, dye?.note ?? null].filter((note) => note !== null) };
}
