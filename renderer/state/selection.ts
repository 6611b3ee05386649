import type { PhotoRole } from '../../core/contract/unit-record';

/** What the side of the unit's screen is about. */
export type Selection =
  | { readonly kind: 'unit' }
  | { readonly kind: 'window'; readonly window: string }
  | { readonly kind: 'trial'; readonly window: string; readonly trial: string }
  | {
      readonly kind: 'photo';
      readonly window: string;
      readonly sha256: string;
      readonly role: PhotoRole;
      readonly trial: string | null;
    };

export const sameSelection = (a: Selection, b: Selection): boolean => JSON.stringify(a) === JSON.stringify(b);
