import { rgbFromXyz, times3 } from '../camera/sensor-colour';
import type { Xyz } from '../light/spectra';
import { cellsPerMm, glowCells, type GlowMap } from './glow-cells';
import { temperatureOf } from './temperature';

export interface ColourFigures {
  readonly x: number;
  readonly y: number;
  readonly uPrime: number;
  readonly vPrime: number;
  readonly cctK: number | null;
  readonly duv: number;
  /** Root mean square distance from the mean (u', v') over squares of 2 mm. */
  readonly spreadUv: number;
  /** Length of the plane-fit slope of (u', v'), per 10 mm. */
  readonly gradientUvPer10Mm: number;
  /** The mean glow lies inside the sRGB gamut. */
  readonly insideGamut: boolean;
}

export function uvPrime([X, Y, Z]: Xyz): readonly [number, number] {
  const sum = X + 15 * Y + 3 * Z;
  return [(4 * X) / sum, (9 * Y) / sum];
}

export function sumOver(map: GlowMap, cells: readonly number[]): Xyz {
  return map.xyz.map((plane) => cells.reduce((sum, i) => sum + plane[i], 0)) as unknown as Xyz;
}

/** Squares of 2 mm from the window's corner that are at least half glow, each with its middle and colour. */
function squares(map: GlowMap): { xMm: number; yMm: number; uv: readonly [number, number] }[] {
  const side = 2 * cellsPerMm;
  const across = Math.ceil(map.nx / side);
  const groups = new Map<number, number[]>();
  for (const i of glowCells(map)) {
    const key = Math.floor(Math.floor(i / map.nx) / side) * across + Math.floor((i % map.nx) / side);
    groups.set(key, [...(groups.get(key) ?? []), i]);
  }
  return [...groups]
    .filter(([, cells]) => cells.length * 2 >= side * side)
    .map(([key, cells]) => ({
      xMm: 2 * (key % across) + 1,
      yMm: 2 * Math.floor(key / across) + 1,
      uv: uvPrime(sumOver(map, cells)),
    }));
}

/** Least-squares slopes of values over x and y. */
function slopes(places: readonly { xMm: number; yMm: number }[], values: readonly number[]): readonly [number, number] {
  const mean = (of: readonly number[]) => of.reduce((a, b) => a + b, 0) / of.length;
  const [mx, my, mv] = [mean(places.map((p) => p.xMm)), mean(places.map((p) => p.yMm)), mean(values)];
  let [xx, xy, yy, xv, yv] = [0, 0, 0, 0, 0];
  places.forEach(({ xMm, yMm }, i) => {
    const [dx, dy, dv] = [xMm - mx, yMm - my, values[i] - mv];
    [xx, xy, yy, xv, yv] = [xx + dx * dx, xy + dx * dy, yy + dy * dy, xv + dx * dv, yv + dy * dv];
  });
  const determinant = xx * yy - xy * xy;
  return [(xv * yy - yv * xy) / determinant, (yv * xx - xv * xy) / determinant];
}

export function colourFigures(map: GlowMap): ColourFigures {
  const total = sumOver(map, glowCells(map));
  const [uPrime, vPrime] = uvPrime(total);
  const parts = squares(map);
  const away = parts.map(({ uv }) => (uv[0] - uPrime) ** 2 + (uv[1] - vPrime) ** 2);
  const uSlopes = slopes(parts, parts.map(({ uv }) => uv[0]));
  const vSlopes = slopes(parts, parts.map(({ uv }) => uv[1]));
  const sum = total[0] + total[1] + total[2];
  return {
    x: total[0] / sum,
    y: total[1] / sum,
    uPrime,
    vPrime,
    ...temperatureOf(total),
    spreadUv: Math.sqrt(away.reduce((a, b) => a + b, 0) / away.length),
    gradientUvPer10Mm: 10 * Math.hypot(...uSlopes, ...vSlopes),
    insideGamut: Math.min(...times3(rgbFromXyz('srgb'), total)) >= 0,
  };
}
