import type { Gate } from '../../contract/gates';
import type { GateFacts } from './gate-facts';
import { everything, gate, percent } from './gate';

/** What the camera did, and what it does not say. */
export function cameraGates(facts: GateFacts): Gate[] {
  const raised: Gate[] = [];
  if (!facts.exposureKnown) {
    const message = 'The photo does not say its exposure time, f-number and ISO: brightness cannot be compared.';
    const remedy = 'Load the original file, or state the exposure.';
    raised.push(gate('EXPOSURE_UNKNOWN', 'warn', null, ['luminance'], message, remedy));
  }
  if (facts.whiteBalance !== 'manual') {
    const seen = facts.whiteBalance === 'auto' ? 'was automatic' : 'is not known';
    const message = `The white balance ${seen}: colours of different photos cannot be compared.`;
    const remedy = 'Set a fixed white balance (daylight) and keep it for the whole series.';
    raised.push(gate('WHITE_BALANCE_AUTO', 'warn', null, ['colour'], message, remedy));
  }
  if (facts.colourSpaceAssumed) {
    const message = 'The photo names no colour space: sRGB is assumed.';
    const remedy = 'Load the original file as the camera wrote it, or export with a colour profile.';
    raised.push(gate('PROFILE_MISSING', 'warn', null, ['colour'], message, remedy));
  }
  if (facts.isLinearJpeg) {
    const message = 'The photo is stated to be linear, but it is a JPEG: cameras put those through a tone curve.';
    const remedy = 'Leave the encoding away, unless you developed the file yourself with no curve.';
    raised.push(gate('ENCODING_DOUBTFUL', 'warn', null, everything, message, remedy));
  }
  if (facts.outsideGamutShare > 0.05) {
    const message = `${percent(facts.outsideGamutShare)} of the glow is more saturated than the file's colour space can hold.`;
    const remedy = "Read the colour as 'at least this saturated'; a raw development in a wider space shows more.";
    raised.push(gate('OUT_OF_GAMUT', 'warn', facts.outsideGamutShare, ['colour', 'redPrint'], message, remedy));
  }
  return raised;
}
