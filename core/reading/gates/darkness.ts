import type { Gate } from '../../contract/gates';
import type { GateFacts } from './gate-facts';
import { everything, gate, percent, shape } from './gate';

/** Too little light, and the noise that comes with it. */
export function darknessGates(facts: GateFacts): Gate[] {
  // Without glow there is nothing that could be dark: the size gate speaks.
  if (facts.glowCells === 0) return [];
  const remedy = 'Raise the exposure (longer time, tripod) until the brightest spot is at code 200-235.';
  if (facts.medianRelLuminance < 0.01) {
    const level = percent(facts.medianRelLuminance);
    const message = `Too dark: the middle of the glow reaches only ${level} of full scale.`;
    return [gate('PHOTO_TOO_DARK', 'refuse', facts.medianRelLuminance, everything, message, remedy)];
  }
  if (facts.nearBlackShare <= 0.05) return [];
  const message = `Dark: ${percent(facts.nearBlackShare)} of the glow is nearly black.`;
  return [gate('PHOTO_TOO_DARK', 'warn', facts.nearBlackShare, everything, message, remedy)];
}

/** Neighbouring places that differ without a cause in the window; while figures may be taken for ground, those differ. */
export function noiseGates(facts: GateFacts): Gate[] {
  if (facts.cellNoise <= 0.05 || facts.polarity === null) return [];
  const level = facts.cellNoise > 0.2 ? 'refuse' : 'warn';
  const message = `Noisy: neighbouring places differ by ${percent(facts.cellNoise)}.`;
  return [gate('PHOTO_NOISY', level, facts.cellNoise, shape, message, 'Use a lower ISO and a tripod.')];
}
