import { measuredMap } from '../core/advice/measured-map';
import { suggestNext } from '../core/advice/next/suggest';
import { fittedLamps, lampsMeant, lampsOf, movesOf, type FoundLamps } from '../core/advice/place/advise-place';
import { bestPlace, forecastMove } from '../core/advice/place/forecast-move';
import type { SingleLamp } from '../core/advice/single-lamps/add-lamps';
import { gapUnknown, isGainSure, noSureGain, whyNoShade } from '../core/advice/shade/check-shade';
import { forecastFamilies } from '../core/advice/usual-questions';
import { shadeAtStrength, workOutShade, type WorkedOutShade } from '../core/advice/shade/plan-shade';
import { AppError } from '../core/base/errors';
import { missing } from '../core/contract/figure';
import type { WhichLamp } from '../core/contract/place-advice';
import type { ErrorEntry } from '../core/contract/readings';
import { adviseAskedMix } from './asked-mix';
import type { AdvisedWindow, AdviceQuestions, FromAdviceWorker, ToAdviceWorker } from './advice-messages';

// Works advice out beside the page, with the functions of the command line, so that no slider waits for it.

/** The light to be left by a shade, as a percentile of the glow. */
const targetPercent = 20;

interface Advised extends SingleLamp {
  readonly spots: AdvisedWindow['spots'];
  readonly isSizeKnown: boolean;
}

const advisedOf = (told: AdvisedWindow): Advised => ({
  name: told.name,
  score: told.score,
  spots: told.spots,
  isSizeKnown: told.isSizeKnown,
  map: measuredMap(told.glowLuminance, 4, told.widthMm, told.heightMm, told.isExposureNormalised),
});

let advised: Advised | null = null;
let lamps: FoundLamps | null = null;
let shade: { readonly gapMm: number; readonly worked: WorkedOutShade } | null = null;

function refuse({ code, message, remedy }: ErrorEntry): never {
  throw new AppError('refusal', code, message, remedy);
}

function inHand(): Advised {
  if (advised === null) throw new Error('advice was asked about no window');
  return advised;
}

/** Fitted when it is first asked for: it takes a second or two. */
function foundLamps(): Exclude<FoundLamps, { refusal: ErrorEntry }> {
  lamps ??= lampsOf(inHand());
  if ('refusal' in lamps) refuse(lamps.refusal);
  return lamps;
}

function indicesOf(which: WhichLamp): readonly number[] {
  const lamps = lampsMeant(foundLamps().fit, which);
  if (lamps.length === 0) throw new Error(`there is no lamp ${which}`);
  return lamps;
}

type Answers = { readonly [Name in keyof AdviceQuestions]: (asks: AdviceQuestions[Name]['asks']) => AdviceQuestions[Name]['answers'] }; // prettier-ignore

const answers: Answers = {
  window(told) {
    [advised, lamps, shade] = [advisedOf(told), null, null];
    return suggestNext(advised);
  },
  lamps() {
    const { fit } = foundLamps();
    return { rmsPercent: 100 * fit.rms, lamps: fittedLamps(fit) };
  },
  move({ lamp, byMm, tiltDeg }) {
    const { map, fit } = foundLamps();
    const { evenness, light } = forecastMove(map, fit, movesOf(fit, indicesOf(lamp), byMm, tiltDeg), inHand().score);
    return { evenness, light, cellsPerMm: map.pxPerMm };
  },
  bestPlace({ lamp, limits }) {
    const { map, fit } = foundLamps();
    return { byMm: bestPlace(map, fit, indicesOf(lamp), limits) };
  },
  shade({ gapMm, strength }) {
    const { score, map } = inHand();
    const refusal = whyNoShade(score, gapMm, 'halftone');
    if (refusal) refuse(refusal);
    const asked = gapMm ?? 0;
    if (shade?.gapMm !== asked) {
      shade = { gapMm: asked, worked: workOutShade(map, { gapMm: asked, targetPercent, style: 'halftone' }) };
    }
    const plan = shadeAtStrength(shade.worked, score, strength);
    const why = gapMm === null ? gapUnknown : isGainSure(score, plan.evennessAfter) ? null : noSureGain;
    const { light, pxPerMm: cellsPerMm, lightLoss, worstMount, evennessAfter: atWorst } = plan;
    const evenness = gapMm === null ? missing(gapUnknown.message) : plan.evennessOnMarks;
    return { light, cellsPerMm, evenness, atWorst, worstMount, lightLoss, refusal: why };
  },
  mix: adviseAskedMix,
  families: ({ isDyed, filamentK }) => forecastFamilies(filamentK, isDyed),
};

self.onmessage = ({ data }: MessageEvent<ToAdviceWorker>): void => {
  const answer = answers[data.name] as (asks: unknown) => AdviceQuestions[keyof AdviceQuestions]['answers'];
  let said: FromAdviceWorker;
  try {
    said = { id: data.id, answer: answer(data.asks) };
  } catch (error) {
    // What the user can do something about; anything else is a defect.
    if (!(error instanceof AppError)) throw error;
    said = { id: data.id, refusal: { code: error.code, message: error.message, remedy: error.remedy } };
  }
  self.postMessage(said);
};
