import type { Plane } from '../../base/plane';
import { figure, type Figure } from '../../contract/figure';
import type { NextDocument, SuggestedAction, Suggestion } from '../../contract/next-advice';
import { differenceUncertainty, leastScoreDifference, sharedErrorOfLikePhotos } from '../../compare/pairs';
import { coverageFactor } from '../../reading/uncertainty';
import { scoreOfLight, type MeasuredMap } from '../measured-map';
import { planShade } from '../shade/plan-shade';
import { leanOf, withDiffuser, withMirroredLamps, withWhiterBox, withWideLamp } from './changed-light';

/** What of a reading the suggestions look at. */
export interface SuggestInput {
  readonly score: Figure;
  readonly map: MeasuredMap;
  readonly spots: readonly { readonly kind: 'hot' | 'dark'; readonly xMm: number; readonly yMm: number }[];
}

/** Nothing to gain from here on: even to a careful eye. */
const evenEnough = 95;
/** A direction, not a forecast: what paper, paint or another lens does is not known beforehand. */
const directionPoints = 15;
/** A second lamp is never quite like the first, nor the box alike at both ends. */
const secondLampPoints = 10;

type Words = Pick<Suggestion, 'words' | 'why' | 'effort' | 'limits' | 'caution'>;

const isDirection = 'Only the direction is safe: how much paper, paint or another lens does is not known beforehand.';

const safety = 'Unplug the unit and let it stand before you open it.';

const wordsOf: Readonly<Record<SuggestedAction, Words>> = {
  'whiten-box': {
    words: 'Clean the box behind the scale, or line it with white card.',
    why: 'a white box throws light into the dark parts',
    effort: 'an hour',
    limits: isDirection,
    caution: `${safety} Card must not touch a filament lamp.`,
  },
  'wide-lamp': {
    words: 'Take LEDs of a wider angle, or turn them away so that they light the scale by way of a wall.',
    why: 'hot spots: the lamps shine straight at the scale',
    effort: 'an evening',
    limits: isDirection,
    caution: `${safety} Check currents anew for other LEDs.`,
  },
  'turn-or-move': {
    words: 'Turn or move the lamps away from the brighter side.',
    why: 'the light leans to one side',
    effort: 'minutes',
    limits: 'Holds for a lean of the whole window; what stays when it is gone is not forecast.',
    caution: `${safety} Keep bare leads off the metal of the box.`,
  },
  diffuse: {
    words: 'Put tracing paper some mm in front of the LEDs, or sand their lenses.',
    why: 'the unevenness is finer than a diffuser is wide',
    effort: 'minutes',
    limits: isDirection,
    caution: `${safety} Paper chars on filament lamps; sanding cannot be undone.`,
  },
  'add-lamp': {
    words: 'Add a lamp like those that are there, mirrored about the middle of the window.',
    why: 'one part of the window gets too little light',
    effort: 'an evening',
    limits: 'Taken for a lamp just like the first in a box alike at both ends: 10 points either way.',
    caution: `${safety} A further lamp takes its current from the same supply.`,
  },
  shade: {
    words: "Print a shade with 'evendial shade', once nothing else helps.",
    why: 'what is left of the unevenness can be taken away, for some of the light',
    effort: 'an evening',
    limits: 'For a shade on the scale itself: the gap between them takes some of it, and a shade takes light away.',
    caution: `${safety} Film and paper char on filament lamps.`,
  },
};

/** The gain with its plus-minus; null when it cannot be told apart from no change. */
function sureGain(points: number, plusMinus: number): Figure | null {
  return points > plusMinus && points >= leastScoreDifference ? figure(points, plusMinus) : null;
}

function gainOfShade({ map, score }: SuggestInput): { gain: Figure | null; lightLoss: number } {
  const plan = planShade(map, { gapMm: 0, targetPercent: 20, style: 'halftone' }, score);
  const [before, after] = [score, plan.evennessAfter];
  const uncertainty = differenceUncertainty(
    (before.plusMinus ?? 0) / coverageFactor,
    (after.plusMinus ?? 0) / coverageFactor,
    sharedErrorOfLikePhotos,
  );
  const points = (after.value ?? 0) - scoreOfLight(map, map.light);
  return { gain: sureGain(points, coverageFactor * uncertainty), lightLoss: plan.lightLoss };
}

/**
 * What to change next, the cheaper and gentler first, the shade last; only what gains more than it leaves open.
 *
 * Gains are scores of the measured light as the change would make it. Box, wide lamps and diffusers: 15 points either way; a lean:
 * half of the gain and 3 points; a further lamp: 10 points; a shade: its own plus-minus.
 *
 * @returns empty when the score is 95 or more, missing, or no gain is sure; then the note says why
 * @source our own choice; order: common practice
 * @rule NX1, NX2
 */
export function suggestNext(input: SuggestInput): NextDocument {
  const { score, map, spots } = input;
  const none = (note: string): NextDocument => ({ format: 'evendial-next', version: 1, suggestions: [], note });
  if (score.value === null) return none(`no evenness score: ${score.reason ?? 'no reason given'}`);
  if (score.value >= evenEnough) return none('even to a careful eye: nothing to gain');
  const now = scoreOfLight(map, map.light);
  const gainOf = (light: Plane): number => scoreOfLight(map, light) - now;
  const hot = spots.filter(({ kind }) => kind === 'hot');
  const atSpot: Record<string, number> = hot.length === 0 ? {} : { xMm: hot[0].xMm, yMm: hot[0].yMm };
  const lean = leanOf(map);
  const leanGain = gainOf(lean.without);
  const shade = gainOfShade(input);
  const [rightPerMm, downPerMm] = lean.perMm;
  const found: readonly (readonly [SuggestedAction, Figure | null, Record<string, number>])[] = [
    ['whiten-box', sureGain(gainOf(withWhiterBox(map)), directionPoints), {}],
    ['wide-lamp', hot.length === 0 ? null : sureGain(gainOf(withWideLamp(map)), directionPoints), atSpot],
    ['turn-or-move', sureGain(leanGain, Math.hypot(leanGain / 2, 3)), { rightPerMm, downPerMm }],
    ['diffuse', sureGain(gainOf(withDiffuser(map)), directionPoints), atSpot],
    ['add-lamp', sureGain(gainOf(withMirroredLamps(map)), secondLampPoints), {}],
    ['shade', shade.gain, { lightLoss: shade.lightLoss }],
  ];
  const suggestions = found.flatMap(([action, gain, details]): Suggestion[] =>
    gain === null ? [] : [{ action, ...wordsOf[action], gain, details }],
  );
  if (suggestions.length === 0) return none('no change would gain more than can be told apart');
  return { format: 'evendial-next', version: 1, suggestions, note: null };
}
