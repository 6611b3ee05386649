import { figureText } from '../../../core/display/figure-text';
import type { Reading, SpotEntry } from '../../../core/contract/readings';

/** The spot that differs most from the glow. */
function strongestSpot(spots: readonly SpotEntry[]): SpotEntry | null {
  const strength = (spot: SpotEntry): number => Math.abs(Math.log(spot.ratioToGlow));
  return spots.reduce<SpotEntry | null>(
    (best, spot) => (best === null || strength(spot) > strength(best) ? spot : best),
    null,
  );
}

/** How much brighter or darker than the glow, with its plus-minus; or what it exceeds or stays under. */
function ratioWords({ kind, ratioToGlow, ratioPlusMinus }: SpotEntry): string {
  if (ratioPlusMinus === null) return `${kind === 'hot' ? 'over' : 'under'} ${ratioToGlow.toPrecision(2)} ×`;
  const { value, plusMinus } = figureText(ratioToGlow, ratioPlusMinus);
  return `${value} ± ${plusMinus} ×`;
}

function spotWords(spot: SpotEntry): string {
  return `${spot.kind === 'hot' ? 'brightest' : 'darkest'} at ${spot.xMm.toFixed(0)} mm, ${ratioWords(spot)} the glow`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The verdict in one sentence: how even, and where it is not; or what keeps the photo from being judged. */
export function verdictLine({ evenness, spots, gates }: Reading): string {
  if (evenness.score.value === null) {
    const refused = gates.find(({ level, affects }) => level === 'refuse' && affects.includes('evenness'));
    return `Evenness cannot be told${refused ? '. See the first check for what to do.' : `: ${evenness.score.reason ?? 'no reason given'}.`}`;
  }
  const spot = strongestSpot(spots);
  return `${capital(evenness.words)}${spot ? `: ${spotWords(spot)}` : ''}.`;
}
