import { signal } from '@preact/signals';
import type { MeasureAsked, PhotoId } from '../../core/contract/bench';
import type { UnitId } from '../../core/contract/book-verbs';
import type { PhotoRole } from '../../core/contract/unit-record';
import { holdsTexts, isObject, keptByName, type KeptStorage } from './kept-text';
import { placeNow, type FollowsNames, type Renamed } from './renamed';

/** What a photo on the bench is in the book. */
export interface Filing {
  readonly unit: UnitId;
  readonly unitName: string;
  readonly window: string;
  readonly role: PhotoRole;
  readonly trial: string | null;
  /** What was asked when it was filed or laid out: a reading asked otherwise is not the one in the book. */
  readonly asked: string;
}

const key = 'evendial-filings';

/** Photos of the bench that lie in a unit, kept while the page's tab lives. */
export class Filings implements FollowsNames {
  readonly all = signal<Readonly<Record<PhotoId, Filing>>>({});
  readonly isDamaged: boolean;

  constructor(readonly storage: KeptStorage) {
    const { kept, isDamaged } = keptByName(storage, key, isFiling);
    this.all.value = kept;
    this.isDamaged = isDamaged;
  }

  of(photo: PhotoId): Filing | null {
    return this.all.value[photo] ?? null;
  }

  put(filings: readonly (readonly [PhotoId, Filing])[]): void {
    this.all.value = { ...this.all.value, ...Object.fromEntries(filings) };
    this.storage.setItem(key, JSON.stringify(this.all.value));
  }

  /** A window or a trial of a unit has another name: its photos on the bench go with it. */
  rename(unit: UnitId, renamed: Renamed): void {
    this.put(this.#of(unit).map(([photo, filing]) => [photo, placeNow(filing, renamed)]));
  }

  callUnit(unit: UnitId, unitName: string): void {
    const others = this.#of(unit).filter(([, filing]) => filing.unitName !== unitName);
    if (others.length > 0) this.put(others.map(([photo, filing]) => [photo, { ...filing, unitName }]));
  }

  #of(unit: UnitId): readonly (readonly [PhotoId, Filing])[] {
    return Object.entries(this.all.value).filter(([, filing]) => filing.unit === unit);
  }
}

function isFiling(given: unknown): given is Filing {
  if (!isObject(given) || !holdsTexts(given, ['unit', 'unitName', 'window', 'role', 'asked'])) return false;
  return given['trial'] === null || typeof given['trial'] === 'string';
}

type Inner = Readonly<Record<string, unknown>>;

/** A question to the engine as a word that is the same for the same question, in whatever order its parts are written. */
export function askedWord(asked: MeasureAsked): string {
  return JSON.stringify(asked, (_, value: unknown) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
    return Object.fromEntries(Object.entries(value as Inner).sort(([a], [b]) => (a < b ? -1 : 1)));
  });
}
