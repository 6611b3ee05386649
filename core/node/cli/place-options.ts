import type { PlaceLimits } from '../../advice/place/forecast-move';
import type { WhichLamp } from '../../contract/place-advice';
import { readArguments, usageError } from './arguments';
import { numberOf } from './option-values';

export interface PlaceOptions {
  readonly source:
    | { readonly kind: 'model'; readonly reading: string; readonly lamp: WhichLamp; readonly want: PlaceWish }
    | { readonly kind: 'single'; readonly readings: readonly string[]; readonly ratios: readonly number[] | null };
  readonly mapsFolder: string | null;
  readonly json: boolean;
}

export type PlaceWish =
  | {
      readonly kind: 'move';
      readonly byMm: readonly [number, number, number];
      readonly tiltDeg: readonly [number, number];
    }
  | { readonly kind: 'search'; readonly limits: PlaceLimits };

const rules = {
  command: 'place',
  values: ['reading', 'lamp', 'move', 'tilt', 'search', 'ratio', 'maps'],
  flags: ['json'],
  lists: ['single-lamp'],
};

function numbersOf(option: string, text: string, count: number, remedy: string): number[] {
  const values = text.split(option === 'ratio' ? ':' : ',').map((part) => numberOf(part.trim()));
  const good = values.filter((value) => value !== null);
  if (good.length === values.length && (count === 0 || good.length === count)) return good;
  throw usageError(`--${option} is ${JSON.stringify(text)}`, remedy, 'OPTION_VALUE');
}

function readLimits(text: string): PlaceLimits {
  const remedy = '--search "x0,x1,y0,y1,z0,z1": from and to of each, in mm of the window, depths 1.5 to 60.';
  const [x0, x1, y0, y1, z0, z1] = numbersOf('search', text, 6, remedy);
  if (x0 > x1 || y0 > y1 || z0 > z1 || z0 < 1.5 || z1 > 60) {
    throw usageError(`--search is ${JSON.stringify(text)}`, remedy, 'OPTION_VALUE');
  }
  return { x: [x0, x1], y: [y0, y1], z: [z0, z1] };
}

function readWish(values: ReadonlyMap<string, string>): PlaceWish {
  const [move, tilt, search] = [values.get('move'), values.get('tilt'), values.get('search')];
  if (search !== undefined) {
    if (move !== undefined || tilt !== undefined)
      throw usageError('--search stands alone', 'Leave --move and --tilt out.');
    return { kind: 'search', limits: readLimits(search) };
  }
  if (move === undefined && tilt === undefined) {
    throw usageError('place needs --move, --tilt or --search', "'evendial help place' shows an example.");
  }
  const [dx, dy, dz] = numbersOf('move', move ?? '0,0,0', 3, '--move "dx,dy,dz" in mm: right, down, away from you.');
  const tiltRemedy = '--tilt "tx,ty" in degrees, each -60 to 60: to the right, downwards.';
  const [tx, ty] = numbersOf('tilt', tilt ?? '0,0', 2, tiltRemedy);
  if (Math.max(Math.abs(tx), Math.abs(ty)) > 60) {
    throw usageError(`--tilt is ${JSON.stringify(tilt)}`, tiltRemedy, 'OPTION_VALUE');
  }
  return { kind: 'move', byMm: [dx, dy, dz], tiltDeg: [tx, ty] };
}

function readLamp(text = '1'): WhichLamp {
  const lamp = text === 'all' ? text : numberOf(text);
  if (lamp === 1 || lamp === 2 || lamp === 'all') return lamp;
  const remedy = 'Give its number from the left, 1 or 2, or all.';
  throw usageError(`--lamp is ${JSON.stringify(text)}`, remedy, 'OPTION_VALUE');
}

function readRatios(text: string | undefined, lamps: number): readonly number[] | null {
  if (text === undefined) return null;
  const remedy = `--ratio 1:0.8: for each of the ${lamps} lamps its current over that of its photo, 0 to 10.`;
  const ratios = numbersOf('ratio', text, lamps, remedy);
  if (ratios.some((ratio) => ratio < 0 || ratio > 10) || ratios.every((ratio) => ratio === 0)) {
    throw usageError(`--ratio is ${JSON.stringify(text)}`, remedy, 'OPTION_VALUE');
  }
  return ratios;
}

/** The options of `evendial place`. @throws AppError with the option @rule PL6 */
export function readPlaceOptions(words: readonly string[]): PlaceOptions {
  const { values, flags, lists, files } = readArguments(words, rules);
  if (files.length > 0) throw usageError(`place takes no ${JSON.stringify(files[0])}`, "See 'evendial help place'.");
  const shared = { mapsFolder: values.get('maps') ?? null, json: flags.has('json') };
  const singles = lists.get('single-lamp') ?? [];
  const reading = values.get('reading');
  if (singles.length > 0) {
    const other = ['reading', 'lamp', 'move', 'tilt', 'search'].find((option) => values.has(option));
    if (other !== undefined) throw usageError(`--${other} does not go with --single-lamp`, `Leave --${other} out.`);
    const ratios = readRatios(values.get('ratio'), singles.length);
    return { source: { kind: 'single', readings: singles, ratios }, ...shared };
  }
  if (reading === undefined) {
    const remedy = 'Or --single-lamp twice, for lamps that were photographed one at a time.';
    throw usageError('place needs --reading READINGS.json[#NAME]', remedy);
  }
  return { source: { kind: 'model', reading, lamp: readLamp(values.get('lamp')), want: readWish(values) }, ...shared };
}
