import { signal } from '@preact/signals';
import type { PhotoId } from '../../core/contract/bench';
import type { UnitEdit, UnitId } from '../../core/contract/book-verbs';
import type { Figure } from '../../core/contract/figure';
import { holdsTexts, isObject, keptList, type KeptStorage } from './kept-text';
import { trialNow, type FollowsNames, type Renamed } from './renamed';

/** The trial of a unit that a plan was filed as. */
export interface FiledPlan {
  readonly unit: UnitId;
  readonly unitName: string;
  readonly trial: string;
}

export interface PlannedMix {
  readonly lamps: readonly string[];
  /** Above 0 each. */
  readonly currentsMa: readonly number[];
  /** In the order of the lamps: what is bought. */
  readonly resistors: readonly PlannedResistor[];
}

export interface PlannedResistor {
  readonly ohm: number;
  /** null: none is big enough. */
  readonly ratedMw: number | null;
}

/** A change that was worked out and is to be tried. */
export interface Plan {
  readonly id: string;
  /** The photo that it was forecast from. */
  readonly photo: PhotoId;
  readonly photoName: string;
  /** As `lamp 1 moved 6 mm to the right`. */
  readonly what: string;
  readonly evenness: Figure;
  /** Of a mix: its lamps, and what its resistors let flow in each string. */
  readonly mix?: PlannedMix;
  /** The newest photo of its window when it was planned: what shows it comes after that. */
  readonly after: PhotoId;
  /** The unit that it was filed into; null: on the bench only. */
  readonly filedIn: FiledPlan | null;
}

const key = 'evendial-plans';

/** Plans of the bench, the newest first, kept while the page's tab lives. */
export class Plans implements FollowsNames {
  readonly all = signal<readonly Plan[]>([]);
  readonly isDamaged: boolean;

  constructor(readonly storage: KeptStorage) {
    const { kept, isDamaged } = keptList(storage, key, isPlan);
    this.all.value = kept;
    this.isDamaged = isDamaged;
  }

  put(plan: Plan): void {
    const others = this.all.value.filter(({ id }) => id !== plan.id);
    this.#keep(others.length < this.all.value.length ? this.all.value.map((old) => (old.id === plan.id ? plan : old)) : [plan, ...others]); // prettier-ignore
  }

  drop(id: string): void {
    this.#keep(this.all.value.filter((plan) => plan.id !== id));
  }

  /** A trial of a unit has another name: what was planned as it goes with it. */
  rename(unit: UnitId, renamed: Renamed): void {
    this.#refile(unit, (filedIn) => ({ ...filedIn, trial: trialNow(filedIn.trial, renamed) }));
  }

  callUnit(unit: UnitId, unitName: string): void {
    this.#refile(unit, (filedIn) => ({ ...filedIn, unitName }));
  }

  #refile(unit: UnitId, change: (filedIn: FiledPlan) => FiledPlan): void {
    const changed = this.all.value.map((plan) =>
      plan.filedIn?.unit === unit ? { ...plan, filedIn: change(plan.filedIn) } : plan,
    );
    if (JSON.stringify(changed) !== JSON.stringify(this.all.value)) this.#keep(changed);
  }

  #keep(plans: readonly Plan[]): void {
    this.all.value = plans;
    this.storage.setItem(key, JSON.stringify(plans));
  }
}

const isNumberOrNull = (given: unknown): boolean => given === null || typeof given === 'number';

const isMix = (given: unknown): boolean =>
  isObject(given) &&
  Array.isArray(given['lamps']) &&
  Array.isArray(given['currentsMa']) &&
  given['currentsMa'].every((mA) => typeof mA === 'number') &&
  Array.isArray(given['resistors']) &&
  given['resistors'].every((one) => isObject(one) && typeof one['ohm'] === 'number' && isNumberOrNull(one['ratedMw']));

/** As far as the screens look at it. */
function isPlan(given: unknown): given is Plan {
  if (!isObject(given) || !holdsTexts(given, ['id', 'photo', 'photoName', 'what', 'after'])) return false;
  const { evenness, filedIn, mix } = given;
  if (mix !== undefined && !isMix(mix)) return false;
  const isFigure = isObject(evenness) && isNumberOrNull(evenness['value']) && isNumberOrNull(evenness['plusMinus']);
  return isFigure && (filedIn === null || (isObject(filedIn) && holdsTexts(filedIn, ['unit', 'unitName', 'trial'])));
}

/** Of a mix: its strings in place of those that the trial was begun with. */
function editsOfMix({ lamps, resistors }: PlannedMix, set: (field: string, text: string) => UnitEdit): UnitEdit[] {
  const strings = resistors.flatMap(({ ohm, ratedMw }, i) => {
    const string = `strings[${JSON.stringify(lamps[i])}]`;
    const rated = ratedMw === null ? [] : [set(`${string}.resistorRatedW`, String(ratedMw / 1000))];
    return [set(`${string}.resistorOhm`, String(ohm)), ...rated];
  });
  return [set('strings', ''), ...strings];
}

/** The edits that make a plan a trial of a unit: begun like the trial of its photo, with what was forecast and what is to be bought. */
export function editsOfPlan(
  { what, evenness, mix }: Plan,
  trial: string,
  { window, from }: { readonly window: string; readonly from: string | null },
): UnitEdit[] {
  const inTrial = (field: string, text: string): UnitEdit => ({
    kind: 'set',
    field: `trials[${JSON.stringify(trial)}].${field}`,
    text,
  });
  const set = (field: string, text: string): UnitEdit => inTrial(`planned.${field}`, text);
  return [
    { kind: 'add-trial', name: trial, light: null, like: from, mirrorTo: null },
    set('what', what),
    set('window', window),
    ...(from === null ? [] : [set('from', from)]),
    ...(evenness.value === null || evenness.plusMinus === null
      ? []
      : [set('evenness', evenness.value.toPrecision(6)), set('evennessPlusMinus', evenness.plusMinus.toPrecision(6))]),
    ...(mix === undefined ? [] : editsOfMix(mix, inTrial)),
  ];
}
