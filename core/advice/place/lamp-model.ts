/** A lamp behind the window; lengths in mm, z away from the viewer. */
export interface ModelLamp {
  readonly xMm: number;
  readonly yMm: number;
  readonly depthMm: number;
  /** Exponent m of its cos^m lobe. */
  readonly lobe: number;
  /** Tangents of the angles by which its axis is turned to the right and downwards. */
  readonly slopes: readonly [number, number];
  readonly strength: number;
}

export interface LampModel {
  readonly lamps: readonly ModelLamp[];
  /** Even light of the box. */
  readonly boxLight: number;
}

/** Behind a lamp it is not wholly dark: the logarithm needs some light. */
const leastCosine = 1e-4;

function lightOfLamp({ xMm, yMm, depthMm, lobe, slopes, strength }: ModelLamp, x: number, y: number): number {
  const [dx, dy] = [x - xMm, y - yMm];
  const distance = Math.sqrt(dx * dx + dy * dy + depthMm * depthMm);
  const axis = Math.sqrt(slopes[0] * slopes[0] + slopes[1] * slopes[1] + 1);
  const cosine = Math.max(leastCosine, (dx * slopes[0] + dy * slopes[1] + depthMm) / (distance * axis));
  const near = depthMm / distance;
  return strength * Math.exp(lobe * Math.log(cosine)) * near * near * near;
}

/**
 * Light of the model at a place: for each lamp A cos^m(theta) (h/d) (h/d)^2, and even box light.
 *
 * @source inverse square law and cosine of incidence; cos^m lobe: common practice for LEDs
 * @rule PL1
 */
export function modelLight({ lamps, boxLight }: LampModel, xMm: number, yMm: number): number {
  return lamps.reduce((sum, lamp) => sum + lightOfLamp(lamp, xMm, yMm), boxLight);
}
