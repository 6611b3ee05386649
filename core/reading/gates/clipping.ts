import type { Gate } from '../../contract/gates';
import type { GateFacts } from './gate-facts';
import { everything, gate, percent } from './gate';

/** Green clipped over this share of the glow: no evenness. METRICS 1.9. */
const mostGreenClipped = 0.02;

/** A channel clipped over this share of the glow: its figures are doubtful. */
const clippedWorthSaying = 0.005;

/**
 * Whether evenness is to be taken from the green channel: red or blue is clipped while green still holds.
 *
 * @source our own choice after an experiment: with 16 % of red clipped the score from luminance was 58 for 50, from green 50
 * @rule GT2
 */
export function evennessFromGreen(
  facts: Pick<GateFacts, 'redClippedShare' | 'greenClippedShare' | 'blueClippedShare'>,
): boolean {
  const otherClipped = facts.redClippedShare > clippedWorthSaying || facts.blueClippedShare > clippedWorthSaying;
  return otherClipped && facts.greenClippedShare <= mostGreenClipped;
}

/** Light cut off at the top of the scale. */
export function clippingGates(facts: GateFacts): Gate[] {
  const green = facts.greenClippedShare;
  if (green > mostGreenClipped) {
    return [
      gate(
        'PHOTO_CLIPPED',
        'refuse',
        green,
        everything,
        `Too bright: ${percent(green)} of the glow is cut off at the top of the scale, and hot spots with it.`,
        'Halve the exposure until the brightest spot is at code 200-235, and photograph again.',
      ),
    ];
  }
  const raised: Gate[] = [];
  if (green > clippedWorthSaying) {
    raised.push(
      gate(
        'PHOTO_CLIPPED',
        'warn',
        green,
        everything,
        `A little too bright: ${percent(green)} of the glow is cut off at the top of the scale.`,
        'Expose one step less, with the brightest spot at code 200-235.',
      ),
    );
  }
  const channels = [
    ['RED_CLIPPED', 'Red', facts.redClippedShare],
    ['BLUE_CLIPPED', 'Blue', facts.blueClippedShare],
  ] as const;
  for (const [code, name, share] of channels) {
    if (share <= clippedWorthSaying) continue;
    raised.push(
      gate(
        code,
        'refuse',
        share,
        ['colour', 'redPrint'],
        `${name} is clipped on ${percent(share)} of the glow: evenness is taken from green; no colour, no red print.`,
        `Expose less, until ${name.toLowerCase()} is at code 200-235 in the brightest spot, and keep that for the whole series.`,
      ),
    );
  }
  return raised;
}
