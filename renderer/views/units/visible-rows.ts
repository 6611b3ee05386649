import type { RefObject } from 'preact';
import { useEffect, useState } from 'preact/hooks';

export interface RowRange {
  readonly from: number;
  /** The first one that is not shown. */
  readonly to: number;
}

/** Rows above and below those in view that are there already, so that a short scroll finds them drawn. */
const spare = 6;

/**
 * The rows of a list that can be seen, of rows that are all as high.
 *
 * @param topPx     of the list from the top of what is seen; negative when it was scrolled up
 * @param seenPx    height of what is seen
 */
export function rowsInView(topPx: number, seenPx: number, rowPx: number, count: number): RowRange {
  const first = Math.floor(-topPx / rowPx) - spare;
  const last = Math.ceil((seenPx - topPx) / rowPx) + spare;
  const from = Math.max(0, Math.min(first, count));
  return { from, to: Math.max(from, Math.min(last, count)) };
}

/** Follows scrolling of whatever the list lies in, at most once a frame. */
export function useVisibleRows(list: RefObject<HTMLElement | null>, rowPx: number, count: number): RowRange {
  const [range, setRange] = useState<RowRange>(() => rowsInView(0, window.innerHeight, rowPx, count));
  useEffect(() => {
    let frame = 0;
    const look = (): void => {
      frame = 0;
      if (!list.current) return;
      const next = rowsInView(list.current.getBoundingClientRect().top, window.innerHeight, rowPx, count);
      setRange((old) => (old.from === next.from && old.to === next.to ? old : next));
    };
    const soon = (): void => {
      if (frame === 0) frame = requestAnimationFrame(look);
    };
    look();
    document.addEventListener('scroll', soon, { capture: true, passive: true });
    window.addEventListener('resize', soon);
    return () => {
      cancelAnimationFrame(frame);
      document.removeEventListener('scroll', soon, { capture: true });
      window.removeEventListener('resize', soon);
    };
  }, [rowPx, count]);
  return range;
}
