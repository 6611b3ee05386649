import type { TriedDistance } from '../contract/lamp-advice';
import { shortFigure } from './figure-text';

/** `11 ± 25 steps`; `4.2 steps` of a colour that was stated. @rule LA19 */
export function triedWords({ missSteps, plusMinusSteps }: TriedDistance): string {
  if (plusMinusSteps === null) return `${missSteps.toFixed(1)} steps`;
  return `${shortFigure({ value: missSteps, plusMinus: plusMinusSteps })} steps`;
}
