import type { Plane } from '../../base/plane';
import { figure, type Figure } from '../../contract/figure';
import type { NextDocument, SuggestedAction, Suggestion } from '../../contract/next-advice';
import { differenceUncertainty, leastScoreDifference, sharedErrorOfLikePhotos } from '../../compare/pairs';
import { coverageFactor } from '../../reading/uncertainty';
import { assumedSizeCaution } from '../assumed-size';
import { scoreOfLight, type MeasuredMap } from '../measured-map';
import { lampsOf, type FoundLamps } from '../place/advise-place';
import { planShade } from '../shade/plan-shade';
import { leanOf, withDiffuser, withMirroredLamps, withWhiterBox, withWideLamp } from './changed-light';
import { bestMoveBack, frostedMap } from './fitted-lamps';

/** What of a reading the suggestions look at. */
export interface SuggestInput {
  readonly score: Figure;
  readonly map: MeasuredMap;
  readonly isSizeKnown: boolean;
  readonly spots: readonly { readonly kind: 'hot' | 'dark'; readonly xMm: number; readonly yMm: number }[];
}

/** Nothing to gain from here on: even to a careful eye. */
const evenEnough = 95;
/** A direction, not a forecast: what paper, paint or another lens does is not known beforehand. */
const directionPoints = 15;
/** A second lamp is never quite like the first, nor the box alike at both ends. */
const secondLampPoints = 10;

/** Less is not seen. */
const leastLossTold = 0.05;

type Words = Pick<Suggestion, 'words' | 'why' | 'effort' | 'limits' | 'ownCaution'>;

const isDirection = 'Only the direction is safe: how much paper, paint or another lens does is not known beforehand.';

/** Goes with everything that is suggested. */
const commonCaution = 'Unplug the unit and let it stand before you open it.';

const wordsOf: Readonly<Record<SuggestedAction, Words>> = {
  'whiten-box': {
    words: 'Clean the box behind the scale, or line it with white card.',
    why: 'a white box throws light into the dark parts',
    effort: 'an hour',
    limits: isDirection,
    ownCaution: 'Card must not touch a filament lamp.',
  },
  'wide-lamp': {
    words: 'Take LEDs of a wider angle, or turn them away so that they light the scale by way of a wall.',
    why: 'hot spots: the lamps shine straight at the scale',
    effort: 'an evening',
    limits: isDirection,
    ownCaution: 'Check currents anew for other LEDs.',
  },
  'turn-or-move': {
    words: 'Turn or move the lamps away from the brighter side.',
    why: 'the light leans to one side',
    effort: 'minutes',
    limits: 'Holds for a lean of the whole window; what stays when it is gone is not forecast.',
    ownCaution: 'Keep bare leads off the metal of the box.',
  },
  'move-back': {
    words: 'Move the lamps back.',
    why: 'they stand close behind the scale, and light what is straight in front of them most',
    effort: 'minutes',
    limits: 'As far as the box is deep: every mm counts. A forecast from lamps fitted to the light of this photo.',
    ownCaution: 'Keep bare leads off the metal of the box.',
  },
  diffuse: {
    words: 'Sand the lenses of the LEDs, and put tracing paper some mm in front of them.',
    why: 'paper and frosted lenses spread light that is brightest at the lamps',
    effort: 'minutes',
    limits: isDirection,
    ownCaution: 'Paper chars on filament lamps; sanding cannot be undone.',
  },
  'add-lamp': {
    words: 'Add a lamp like those that are there, mirrored about the middle of the window.',
    why: 'one part of the window gets too little light',
    effort: 'an evening',
    limits: 'Taken for a lamp just like the first in a box alike at both ends: 10 points either way.',
    ownCaution: 'A further lamp takes its current from the same supply.',
  },
  shade: {
    words: "Print a shade with 'evendial shade', once nothing else helps.",
    why: 'what is left of the unevenness can be taken away, for some of the light',
    effort: 'an evening',
    limits:
      'Reckoned for a shade on the scale itself, stuck 1 mm off its marks: on them it does better. It takes light away.',
    ownCaution: 'Film and paper char on filament lamps.',
  },
};

/** The gain with its plus-minus; null when it cannot be told apart from no change. */
function sureGain(points: number, plusMinus: number): Figure | null {
  return points > plusMinus && points >= leastScoreDifference ? figure(points, plusMinus) : null;
}

/** Of a forecast over the score as measured. */
function forecastGain({ map, score }: SuggestInput, after: Figure): Figure | null {
  const uncertainty = differenceUncertainty(
    (score.plusMinus ?? 0) / coverageFactor,
    (after.plusMinus ?? 0) / coverageFactor,
    sharedErrorOfLikePhotos,
  );
  return sureGain((after.value ?? 0) - scoreOfLight(map, map.light), coverageFactor * uncertainty);
}

type Found = readonly [SuggestedAction, Figure | null, Record<string, number>, Partial<Words>?];

function movedBack(input: SuggestInput, lamps: FoundLamps): Found {
  const back = 'refusal' in lamps ? null : bestMoveBack(lamps.map, lamps.fit, input.score);
  if (back === null) return ['move-back', null, {}];
  const { byMm, evenness, lightLoss } = back;
  const which = 'refusal' in lamps || lamps.fit.model.lamps.length === 1 ? 'lamp' : 'lamps';
  const cost = lightLoss < leastLossTold ? '' : `; it takes ${(100 * lightLoss).toFixed(0)} % of the light`;
  const words = `Move the ${which} back by about ${byMm} mm${cost}.`;
  const limits = input.isSizeKnown ? {} : { limits: `${wordsOf['move-back'].limits} ${assumedSizeCaution}` };
  return ['move-back', forecastGain(input, evenness), { backMm: byMm, lightLoss }, { words, ...limits }];
}

/**
 * What to change next, the cheaper and gentler first, the shade last; only what gains more than it leaves open.
 *
 * Gains are scores of the measured light as the change would make it. Box, wide lamps and diffusers: 15 points either way; a lean:
 * half of the gain and 3 points; a further lamp: 10 points; lamps moved back and a shade: the plus-minus of their forecasts.
 *
 * Each suggestion has its whole caution; what goes with all of them is told once beside them, and what is its own apart.
 *
 * @returns empty when the score is 95 or more, missing, or no gain is sure; then the note says why
 * @source our own choice; order: common practice
 * @rule NX1, NX2, NX4
 */
export function suggestNext(input: SuggestInput): NextDocument {
  const { score, map, spots } = input;
  const none = (note: string): NextDocument => ({
    format: 'evendial-next',
    version: 1,
    suggestions: [],
    cautions: [],
    note,
  });
  if (score.value === null) return none(`no evenness score: ${score.reason ?? 'no reason given'}`);
  if (score.value >= evenEnough) return none('even to a careful eye: nothing to gain');
  const now = scoreOfLight(map, map.light);
  const gainOf = (light: Plane): number => scoreOfLight(map, light) - now;
  const hot = spots.filter(({ kind }) => kind === 'hot');
  const atSpot: Record<string, number> = hot.length === 0 ? {} : { xMm: hot[0].xMm, yMm: hot[0].yMm };
  const lean = leanOf(map);
  const leanGain = gainOf(lean.without);
  const shade = planShade(map, { gapMm: 0, targetPercent: 20, style: 'halftone' }, score);
  const lamps = lampsOf(input);
  const frosted = frostedMap(map, lamps);
  const diffused = scoreOfLight(frosted, withDiffuser(frosted)) - now;
  const [rightPerMm, downPerMm] = lean.perMm;
  const found: readonly Found[] = [
    ['whiten-box', sureGain(gainOf(withWhiterBox(map)), directionPoints), {}],
    ['wide-lamp', hot.length === 0 ? null : sureGain(gainOf(withWideLamp(map)), directionPoints), atSpot],
    movedBack(input, lamps),
    ['turn-or-move', sureGain(leanGain, Math.hypot(leanGain / 2, 3)), { rightPerMm, downPerMm }],
    ['diffuse', sureGain(diffused, directionPoints), atSpot],
    ['add-lamp', sureGain(gainOf(withMirroredLamps(map)), secondLampPoints), {}],
    ['shade', forecastGain(input, shade.evennessAfter), { lightLoss: shade.lightLoss }],
  ];
  const suggestions = found.flatMap(([action, gain, details, changed]): Suggestion[] => {
    if (gain === null) return [];
    const words = { ...wordsOf[action], ...changed };
    return [{ action, ...words, caution: `${commonCaution} ${words.ownCaution}`, gain, details }];
  });
  if (suggestions.length === 0) return none('no change would gain more than can be told apart');
  return { format: 'evendial-next', version: 1, suggestions, cautions: [commonCaution], note: null };
}
