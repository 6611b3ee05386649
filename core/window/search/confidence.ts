import type { Evidence } from './evidence';

/** 0 up to `none`, 1 from `full`, straight between. */
function ramp(value: number, none: number, full: number): number {
  return Math.min(1, Math.max(0, (value - none) / (full - none)));
}

export function confidenceOf(e: Evidence, outline: 'rectangle' | 'ellipse', lookAlikes: number): number {
  const isRound = outline === 'ellipse';
  const edge = isRound ? ramp(e.arc, 0.2, 0.45) * ramp(e.closeness, 0.25, 0.5) : ramp(e.support, 0.3, 0.9) * ramp(e.leastContrast, -0.1, 0.3);
  const glow = isRound ? ramp(e.overBrightSurroundings, -0.2, 0.5) : ramp(e.overBrightSurroundings, 0.4, 1.1);
  return (
    edge *
    glow *
    ramp(e.contrast, 0.2, 1) *
    ramp(e.longShare, 0.04, 0.06) *
    ramp(e.shortShare, 0.012, 0.02) *
    ramp(e.shortSidePx, 25, 45) *
    (isRound ? ramp(e.shortShare / e.longShare, 0.4, 0.55) : 1) *
    (1 - ramp(e.skew, 0.06, 0.35)) *
    (1 - ramp(lookAlikes, 2, 7))
  );
}
