import { blurGaussian } from '../../base/gaussian';
import type { Plane } from '../../base/plane';
import { medianOf } from '../../base/stats';
import type { MeasuredMap } from '../measured-map';

const changed = (plane: Plane, of: (value: number, i: number) => number): Plane => ({
  ...plane,
  values: plane.values.map(of),
});

const glowMedian = ({ light, glow }: MeasuredMap): number => medianOf(light.values.filter((_, i) => glow.values[i]));

/** So much more even light a white box gives, in glows. */
const whiterBy = 0.3;

/** The light with more of it thrown back by the box. @source our own choice: even light, 0.3 of the median @rule NX2 */
export function withWhiterBox(map: MeasuredMap): Plane {
  const more = whiterBy * glowMedian(map);
  return changed(map.light, (value) => value + more);
}

/** So much of the contrast in ln a lamp of wide angle leaves. */
const wideLeaves = 0.6;

/** The light of a lamp of wider angle, or of one that shines on a wall. @source our own choice @rule NX2 */
export function withWideLamp(map: MeasuredMap): Plane {
  const middle = glowMedian(map);
  return changed(map.light, (value) => middle * Math.pow(value / middle, wideLeaves));
}

/** Tracing paper some mm in front of the lamps. */
const diffuserSigmaMm = 4;

/** The light behind a diffuser. @source our own choice: a Gaussian of 4 mm @rule NX2 */
export function withDiffuser({ light, pxPerMm }: MeasuredMap): Plane {
  return blurGaussian(light, diffuserSigmaMm * pxPerMm);
}

/** The same lamps once more, mirrored about the middle of the window. @source light adds up; a box alike at both ends @rule NX2 */
export function withMirroredLamps({ light }: MeasuredMap): Plane {
  const { width, values } = light;
  return changed(light, (value, i) => value + values[i - (i % width) + (width - 1 - (i % width))]);
}

/** The slope of ln light over the glow, and the light without it. */
export interface Lean {
  /** ln units a mm, to the right and downwards. */
  readonly perMm: readonly [number, number];
  readonly without: Plane;
}

/** What of the light leans to one side. @source straight lines by least squares, right and down apart @rule NX2 */
export function leanOf({ light, glow, pxPerMm }: MeasuredMap): Lean {
  const cells = Array.from(light.values.keys()).filter((i) => glow.values[i]);
  const mean = (of: (i: number) => number): number => cells.reduce((sum, i) => sum + of(i), 0) / cells.length;
  const logs = (i: number): number => Math.log(light.values[i]);
  const places = [(i: number) => i % light.width, (i: number) => Math.floor(i / light.width)];
  const middles = places.map(mean);
  const middleLog = mean(logs);
  const slopes = places.map((place, axis) => {
    const along = (i: number): number => place(i) - middles[axis];
    return (
      mean((i) => along(i) * (logs(i) - middleLog)) /
      Math.max(
        1e-9,
        mean((i) => along(i) ** 2),
      )
    );
  });
  const [across, down] = slopes;
  const offset = (i: number): number => across * (places[0](i) - middles[0]) + down * (places[1](i) - middles[1]);
  return {
    perMm: [across * pxPerMm, down * pxPerMm],
    without: changed(light, (value, i) => value * Math.exp(-offset(i))),
  };
}
