import type { MeasuredWindow } from '../contract/measure';
import type { UnitWindow } from '../contract/unit-record';

/** A window before and after the swap, as far as its photos could be measured. */
export interface ShownWindow {
  readonly window: UnitWindow;
  /** By the filament lamps; null: there is no photo of it that could be measured. */
  readonly before: MeasuredWindow | null;
  /** In the chosen trial. */
  readonly after: MeasuredWindow | null;
}

export const pictureKinds = ['photo', 'luminance', 'unevenness'] as const;
export type PictureKind = (typeof pictureKinds)[number];
export type Side = 'before' | 'after';

/** What a picture is handed over to the renderer as. */
export function pictureName(window: string, side: Side, kind: PictureKind): string {
  return `${side} ${kind} ${window}`;
}

/** The sides that there are photos of, before first. */
export function sidesOf({ before, after }: ShownWindow): { readonly side: Side; readonly measured: MeasuredWindow }[] {
  return [
    ...(before ? [{ side: 'before' as const, measured: before }] : []),
    ...(after ? [{ side: 'after' as const, measured: after }] : []),
  ];
}

/** Width and height of the window, mm, as it was measured. */
export function sizeOf({ window, before, after }: ShownWindow): readonly [number, number] {
  const outline = (after ?? before)?.reading.outline;
  return outline ? [outline.widthMm, outline.heightMm] : [window.widthMm, window.heightMm];
}
