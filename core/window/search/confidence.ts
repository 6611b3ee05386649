import type { Evidence } from './evidence';

/** 0 up to `none`, 1 from `full`, straight between. */
function ramp(value: number, none: number, full: number): number {
  return Math.min(1, Math.max(0, (value - none) / (full - none)));
}

export function confidenceOf(e: Evidence, outline: 'rectangle' | 'ellipse'): number {
  const support = outline === 'rectangle' ? ramp(e.support, 0.3, 0.9) * ramp(e.leastContrast, -0.1, 0.3) : ramp(e.arc, 0.35, 0.55);
  return (
    support *
    ramp(e.contrast, 0.2, 1) *
    ramp(e.overBrightSurroundings, 0.2, 1) *
    ramp(e.longShare, 0.04, 0.06) *
    ramp(e.shortShare, 0.012, 0.02) *
    (1 - ramp(e.skew, 0.06, 0.35))
  );
}
