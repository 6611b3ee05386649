import { transmission } from '../light/materials';
import { lights, times, tristimulus, type Xyz } from '../light/spectra';
import type { LitWindow } from '../window-scene';

export interface RedPrintFigures {
  /** L_mark / L_glow - M_mark / M_glow in cone space. */
  readonly redness: number;
  /** Y_mark / Y_glow - 1. */
  readonly luminanceContrast: number;
}

/** Long and middle cone responses, matrix of Hunt, Pointer and Estevez. */
const longCone = ([x, y, z]: Xyz) => 0.40024 * x + 0.7076 * y - 0.08081 * z;
const middleCone = ([x, y, z]: Xyz) => -0.2263 * x + 1.16532 * y + 0.0457 * z;

/** Red print against the glow beside it, lamps of all colours mixed by their flux. */
export function redPrintFigures(window: LitWindow): RedPrintFigures {
  const light = window.lamps
    .map((lamp) => lights[lamp.light].map((value) => value * lamp.flux))
    .reduce((sum, one) => sum.map((value, i) => value + one[i]));
  const glow = tristimulus(times(light, transmission.base));
  const mark = tristimulus(times(light, transmission.red));
  return {
    redness: longCone(mark) / longCone(glow) - middleCone(mark) / middleCone(glow),
    luminanceContrast: mark[1] / glow[1] - 1,
  };
}
