import { signal } from '@preact/signals';
import type { UnitId } from '../../core/contract/book-verbs';

export const unitViews = ['windows', 'facts', 'timeline', 'sheet'] as const;
export type UnitView = (typeof unitViews)[number];

/** Where in the program the user is. */
export type Place =
  | { readonly at: 'units' }
  | { readonly at: 'unit'; readonly unit: UnitId; readonly view: UnitView }
  | { readonly at: 'bench' };

const key = 'evendial-place';

function keptPlace(storage: Pick<Storage, 'getItem'>): Place | null {
  const [at, view, unit] = (storage.getItem(key) ?? '').split(' ');
  if (at === 'bench' || at === 'units') return { at };
  const known = unitViews.find((name) => name === view);
  return at === 'unit' && known && unit ? { at, view: known, unit } : null;
}

/** The place in view, kept while the page's tab lives. */
export class Places {
  readonly now = signal<Place>({ at: 'units' });

  constructor(readonly storage: Pick<Storage, 'getItem' | 'setItem'>) {
    this.now.value = keptPlace(storage) ?? { at: 'units' };
  }

  goTo(place: Place): void {
    this.now.value = place;
    this.storage.setItem(key, place.at === 'unit' ? `unit ${place.view} ${place.unit}` : place.at);
  }
}
