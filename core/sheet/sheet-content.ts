import type { Drawing } from './drawing';

/** Width of everything on the sheet, mm: that of A4 less 18 mm on both sides; Letter gets wider margins. */
export const sheetWidthMm = 174;

/** A label and what belongs to it. */
export interface Fact {
  readonly label: string;
  readonly value: string;
}

export interface TableColumn {
  readonly title: string;
  /** `figure`: its plus-minus signs stand under each other. */
  readonly align?: 'left' | 'right' | 'figure';
  /** `words`: judgement in words; `strong`: what the row is about. */
  readonly tone?: 'words' | 'strong';
}

export type TableCell = string | Drawing;

export type MarkKind = 'note' | 'warn' | 'refuse' | 'plain';

export interface ListItem {
  readonly mark: MarkKind;
  readonly text: string;
  /** What to do about it. */
  readonly remedy?: string;
}

export type SheetBlock =
  | { readonly kind: 'text'; readonly text: string; readonly tone?: 'quiet' | 'strong' }
  | { readonly kind: 'facts'; readonly facts: readonly Fact[] }
  | {
      readonly kind: 'table';
      readonly columns: readonly TableColumn[];
      readonly rows: readonly (readonly TableCell[])[];
    }
  | { readonly kind: 'list'; readonly items: readonly ListItem[] }
  | { readonly kind: 'drawing'; readonly caption?: string; readonly drawing: Drawing };

export interface SheetSection {
  readonly title: string;
  readonly blocks: readonly SheetBlock[];
}

/** A record sheet without layout: what stands on it, in which order; pictures are named and handed over beside it. */
export interface SheetContent {
  readonly title: string;
  /** Under the title: what the unit is, whose it is, when it was saved. */
  readonly lines: readonly string[];
  /** The chosen trial in one sentence. */
  readonly verdict: string | null;
  readonly sections: readonly SheetSection[];
  /** At the foot of every page. */
  readonly foot: string;
  /** Of the last saved revision, ISO 8601: the document's own date, so that the same record makes the same file. */
  readonly savedAt: string;
}
