import type { Uv1976 } from '../colour/chromaticity';
import { stepsFromUvDistance, uvDistance } from '../colour/steps';
import type { TriedDistance } from '../contract/lamp-advice';

/** A glow's chromaticity as a photo tells it, or as it was stated. */
export interface ToldGlow extends Uv1976 {
  /** Of u' and v', k = 2; null or left out: it was stated, not measured. */
  readonly plusMinus?: Uv1976 | null;
  /** It lies outside its file's colour space, which holds it as near as it can; left out: it does not, or it was stated. */
  readonly isCutShort?: boolean;
}

/** Plus-minus of a glow along a direction in u'v'. */
function plusMinusAlong({ plusMinus }: ToldGlow, [du, dv]: readonly [number, number]): number {
  return plusMinus ? Math.hypot(plusMinus.uPrime * du, plusMinus.vPrime * dv) : 0;
}

/** Of two glows that are one: no direction is left out. */
const anyWay = [1, 1] as const;

/**
 * How far a try lay from the target. Plus-minus: those of both photos along the line between them, as though each erred by itself;
 * photos taken alike share some of it, so that it is rather too wide.
 *
 * @source CIE TN 001:2014 for the step; JCGM 100 for the plus-minus
 * @rule LA19
 */
export function triedDistance(tried: ToldGlow, target: ToldGlow): TriedDistance {
  const missUv = uvDistance(tried, target);
  const apart = [tried.uPrime - target.uPrime, tried.vPrime - target.vPrime] as const;
  const way = missUv === 0 ? anyWay : ([apart[0] / missUv, apart[1] / missUv] as const);
  const plusMinusUv = Math.hypot(plusMinusAlong(tried, way), plusMinusAlong(target, way));
  return {
    missUv,
    missSteps: stepsFromUvDistance(missUv),
    plusMinusSteps: tried.plusMinus == null ? null : stepsFromUvDistance(plusMinusUv),
  };
}
