/** The part of the window that the strips show, in mm; all strips share it. */
export interface Viewport {
  readonly leftMm: number;
  readonly topMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

export interface SizeMm {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Most enlargement. */
const mostZoom = 16;

export function wholeWindow({ widthMm, heightMm }: SizeMm): Viewport {
  return { leftMm: 0, topMm: 0, widthMm, heightMm };
}

/** The viewport moved so that it stays inside the window. */
function kept(view: Viewport, size: SizeMm): Viewport {
  const leftMm = Math.min(Math.max(0, view.leftMm), size.widthMm - view.widthMm);
  const topMm = Math.min(Math.max(0, view.topMm), size.heightMm - view.heightMm);
  return { ...view, leftMm, topMm };
}

/** Enlarges about a place that stays where it is; `factor` over 1 shows less of the window. */
export function zoomed(view: Viewport, size: SizeMm, at: { xMm: number; yMm: number }, factor: number): Viewport {
  const widthMm = Math.min(size.widthMm, Math.max(size.widthMm / mostZoom, view.widthMm / factor));
  const scale = widthMm / view.widthMm;
  const heightMm = view.heightMm * scale;
  return kept(
    {
      widthMm,
      heightMm,
      leftMm: at.xMm - (at.xMm - view.leftMm) * scale,
      topMm: at.yMm - (at.yMm - view.topMm) * scale,
    },
    size,
  );
}

export function panned(view: Viewport, size: SizeMm, byXMm: number, byYMm: number): Viewport {
  return kept({ ...view, leftMm: view.leftMm + byXMm, topMm: view.topMm + byYMm }, size);
}

/** Round millimetre marks for a ruler: about `most` of them over the length. */
export function rulerMarks(fromMm: number, lengthMm: number, most: number): { atMm: number; isNamed: boolean }[] {
  const step = [0.5, 1, 2, 5, 10, 20, 50].find((mm) => lengthMm / mm <= most) ?? 100;
  const marks = [];
  for (let n = Math.ceil((2 * fromMm) / step); n * step <= 2 * (fromMm + lengthMm); n++) {
    marks.push({ atMm: (n * step) / 2, isNamed: n % 2 === 0 });
  }
  return marks;
}
