import { signal, type Signal } from '@preact/signals';
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { WindowPoint } from '../../../core/base/points';
import { panned, wholeWindow, zoomed, type SizeMm, type Viewport } from '../../canvas/viewport';

/** What all strips of one reading share: the part of the window they show, and the place under the pointer. */
export class ReadingView {
  readonly viewport: Signal<Viewport>;
  readonly pointer = signal<WindowPoint | null>(null);
  /** Where the profile runs; follows the pointer until it is pinned. */
  readonly profileAtMm: Signal<number>;

  constructor(readonly size: SizeMm) {
    this.viewport = signal(wholeWindow(size));
    this.profileAtMm = signal(size.heightMm / 2);
  }

  zoom(factor: number, at?: WindowPoint): void {
    const { leftMm, topMm, widthMm, heightMm } = this.viewport.value;
    const about = at ?? { xMm: leftMm + widthMm / 2, yMm: topMm + heightMm / 2 };
    this.viewport.value = zoomed(this.viewport.value, this.size, about, factor);
  }

  pan(byXMm: number, byYMm: number): void {
    this.viewport.value = panned(this.viewport.value, this.size, byXMm, byYMm);
  }

  showAll(): void {
    this.viewport.value = wholeWindow(this.size);
  }

  get isZoomed(): boolean {
    return this.viewport.value.widthMm < this.size.widthMm * 0.999;
  }
}

export const ReadingViewContext = createContext<ReadingView | null>(null);

export function useReadingView(): ReadingView {
  const view = useContext(ReadingViewContext);
  if (view === null) throw new Error('no reading around this component');
  return view;
}
