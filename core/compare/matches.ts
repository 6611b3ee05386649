import type { Match } from '../contract/comparison';
import { figure, missing, type Figure } from '../contract/figure';
import { coverageFactor } from '../reading/uncertainty';
import { uvBetween, uvBetweenPhotos } from './colour-difference';
import type { ComparedWindow } from './compared-window';
import { sharedError } from './like-photos';
import { luminanceDifference, luminanceDifferenceInPhoto } from './luminance-difference';
import { sharedErrorOfLikePhotos, tellApart } from './pairs';

/** A window whose light is less than this share of another's in the same photo has its own lamp off. @source our own choice */
const darkBelow = 0.2;

interface Comparing {
  readonly luminance: Figure;
  readonly deltaUv: Figure;
  /** Share of error that the scores have in common. */
  readonly rho: number;
}

const bothLit = 'both windows are lit';

/** ln ratio to dimmer over brighter; the error of a ratio is that of its logarithm times the ratio. */
function ratioOf({ value, plusMinus, reason }: Figure): Figure {
  if (value === null || plusMinus === null) return missing(reason ?? 'not measured');
  const ratio = Math.exp(-Math.abs(value));
  return figure(ratio, ratio * plusMinus);
}

function brighterOf(a: ComparedWindow, b: ComparedWindow, { value, plusMinus }: Figure): string | null {
  if (value === null || plusMinus === null || Math.abs(value) <= plusMinus) return null;
  return (value > 0 ? b : a).reading.window;
}

function scoresApart(a: ComparedWindow, b: ComparedWindow, rho: number): Figure {
  const [first, second] = [a, b].map(({ reading }) => reading.evenness.score);
  if (first.value === null || first.plusMinus === null) return missing(`${a.reading.window}: ${first.reason ?? ''}`);
  if (second.value === null || second.plusMinus === null) return missing(`${b.reading.window}: ${second.reason ?? ''}`);
  const { difference, uncertainty } = tellApart(
    { value: first.value, uncertainty: first.plusMinus / coverageFactor },
    { value: second.value, uncertainty: second.plusMinus / coverageFactor },
    rho,
    0,
  );
  return figure(difference, coverageFactor * uncertainty);
}

function matchOf(name: string, a: ComparedWindow, b: ComparedWindow, comparing: Comparing, isOnePhoto: boolean): Match {
  const luminanceRatio = ratioOf(comparing.luminance);
  const isLeak = isOnePhoto && luminanceRatio.value !== null && luminanceRatio.value < darkBelow;
  const none = missing(luminanceRatio.value === null ? (luminanceRatio.reason ?? '') : bothLit);
  return {
    photoOrTrial: name,
    windows: [a.reading.window, b.reading.window],
    luminanceRatio,
    brighter: brighterOf(a, b, comparing.luminance),
    deltaUv: comparing.deltaUv,
    evennessDifference: scoresApart(a, b, comparing.rho),
    leak: isLeak ? luminanceRatio : none,
  };
}

/**
 * Two windows of one photo: camera, exposure and white balance are the same, so only what differs between the lights is in doubt.
 *
 * @param name of the trial
 * @source JCGM 100; a window under a fifth of the other's light counts as dark: our own choice
 * @rule PR8
 */
export function matchInPhoto(name: string, a: ComparedWindow, b: ComparedWindow): Match {
  const luminance = luminanceDifferenceInPhoto(a, b);
  return matchOf(name, a, b, { luminance, deltaUv: uvBetween(a, b), rho: sharedErrorOfLikePhotos }, true);
}

/** Two windows, each in a photo of its own. @param name of both trials @rule PR8 */
export function matchOfPhotos(name: string, a: ComparedWindow, b: ComparedWindow): Match {
  const luminance = luminanceDifference(a, b);
  const rho = sharedError(a.reading, b.reading);
  return matchOf(name, a, b, { luminance, deltaUv: uvBetweenPhotos(a, b, rho), rho }, false);
}
