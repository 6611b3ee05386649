import { fieldAt } from '../light/field-map';
import { transmission } from '../light/materials';
import { lights, times, tristimulus, type Xyz } from '../light/spectra';
import type { PrintMap } from '../print/print-map';
import type { LightLayer } from '../window-scene';

export interface RedPrintFigures {
  /** L over L of the glow less M over M of the glow (Hunt-Pointer-Estevez). */
  readonly redness: number;
  /** Y of the mark over Y of the glow, less 1. */
  readonly luminanceContrast: number;
}

const cones = [
  [0.40024, 0.7076, -0.08081],
  [-0.2263, 1.16532, 0.0457],
] as const;
const cone = (k: 0 | 1, xyz: Xyz) => cones[k].reduce((sum, weight, i) => sum + weight * xyz[i], 0);

/** Of the full red print against the glow that would be in its place; null without red print. */
export function redPrintFigures(layers: readonly LightLayer[], print: PrintMap): RedPrintFigures | null {
  const mark: [number, number, number] = [0, 0, 0];
  const glow: [number, number, number] = [0, 0, 0];
  const strength = layers.map(() => 0);
  print.red.forEach((coverage, i) => {
    if (coverage < 1) return;
    const xMm = ((i % print.widthCells) + 0.5) / print.cellsPerMm;
    const yMm = (Math.floor(i / print.widthCells) + 0.5) / print.cellsPerMm;
    layers.forEach(({ field }, k) => (strength[k] += fieldAt(field, xMm, yMm)));
  });
  if (!strength.some((value) => value > 0)) return null;
  layers.forEach(({ light, xyzThroughScale }, k) => {
    const through = tristimulus(times(lights[light], transmission.red));
    for (let i = 0; i < 3; i++) {
      mark[i] += strength[k] * through[i];
      glow[i] += strength[k] * xyzThroughScale[i];
    }
  });
  return {
    redness: cone(0, mark) / cone(0, glow) - cone(1, mark) / cone(1, glow),
    luminanceContrast: mark[1] / glow[1] - 1,
  };
}
