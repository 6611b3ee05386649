import { signal } from '@preact/signals';
import type { PhotoId } from '../../core/contract/bench';
import type { UnitEdit, UnitId } from '../../core/contract/book-verbs';
import type { Figure } from '../../core/contract/figure';

/** A change that was worked out and is to be tried. */
export interface Plan {
  readonly id: string;
  /** The photo that it was forecast from. */
  readonly photo: PhotoId;
  readonly photoName: string;
  /** As `lamp 1 moved 6 mm to the right`. */
  readonly what: string;
  readonly evenness: Figure;
  /** The unit that it was filed into; null: on the bench only. */
  readonly filedIn: { readonly unit: UnitId; readonly unitName: string; readonly trial: string } | null;
}

const key = 'evendial-plans';

/** Plans of the bench, the newest first, kept while the page's tab lives. */
export class Plans {
  readonly all = signal<readonly Plan[]>([]);

  constructor(readonly storage: Pick<Storage, 'getItem' | 'setItem'>) {
    this.all.value = JSON.parse(storage.getItem(key) ?? '[]') as Plan[];
  }

  put(plan: Plan): void {
    const others = this.all.value.filter(({ id }) => id !== plan.id);
    this.#keep(others.length < this.all.value.length ? this.all.value.map((old) => (old.id === plan.id ? plan : old)) : [plan, ...others]); // prettier-ignore
  }

  drop(id: string): void {
    this.#keep(this.all.value.filter((plan) => plan.id !== id));
  }

  #keep(plans: readonly Plan[]): void {
    this.all.value = plans;
    this.storage.setItem(key, JSON.stringify(plans));
  }
}

/** The edits that make a plan a trial of a unit: begun like the trial of its photo, with what was forecast. */
export function editsOfPlan({ what, evenness }: Plan, trial: string, from: string | null): UnitEdit[] {
  const set = (field: string, text: string): UnitEdit => ({
    kind: 'set',
    field: `trials[${trial}].planned.${field}`,
    text,
  });
  return [
    { kind: 'add-trial', name: trial, light: null, like: from, mirrorTo: null },
    set('what', what),
    ...(from === null ? [] : [set('from', from)]),
    ...(evenness.value === null || evenness.plusMinus === null
      ? []
      : [set('evenness', evenness.value.toPrecision(6)), set('evennessPlusMinus', evenness.plusMinus.toPrecision(6))]),
  ];
}
