import type { Gate } from '../../contract/gates';
import type { BracketUse } from '../../preparation/bracket-use';
import type { StoredResponseUse } from '../../preparation/stored-response';
import { everything, gate, percent } from './gate';

const again =
  'Photograph three to five times from a tripod, 1 to 2 EV apart by the exposure time alone; or leave --bracket away and measure one of the photos.';

/** What an exposure series told of the camera's tone curve, or why it could not be used. @rule BR6, BR7 */
export function bracketGates(bracket: BracketUse): Gate[] {
  if (bracket.state === 'refused') {
    const message = `The exposure series cannot be used: ${bracket.reason}.`;
    return [gate('BRACKET_UNUSABLE', 'refuse', null, everything, message, again)];
  }
  const { recovered, doubts, photoCount } = bracket;
  const { leftOutError, plainError, response } = recovered;
  const told = `photos left out are told by the others within ${percent(leftOutError)}, by the file's own curve within ${percent(plainError)}`;
  if (doubts.length > 0) {
    const message = `The tone curve of the exposure series is doubted: ${doubts.join('; ')}. The plus-minus stays that of an unknown curve.`;
    return [
      gate('BRACKET_UNUSABLE', 'warn', leftOutError, ['evenness', 'spots', 'luminance', 'colour'], message, again),
    ];
  }
  const message = response.isLinear
    ? `The codes of ${photoCount} exposures are light already: ${told}.`
    : `The camera's tone curve was recovered from ${photoCount} exposures: ${told}.`;
  const remedy = response.isLinear
    ? 'Nothing to do: photos of this camera, developed alike, may be stated as linear.'
    : 'Nothing to do. A linear file from raw would leave no doubt about the curve at all.';
  return [gate('TONE_CURVE', 'note', leftOutError, ['evenness', 'spots', 'luminance', 'colour'], message, remedy)];
}

/** Whether a stored tone curve was used. @rule BR9 */
export function storedResponseGates(use: StoredResponseUse): Gate[] {
  if (use.state === 'refused') {
    const message = `The stored tone curve was not used: ${use.reason}.`;
    const remedy = 'Recover it again with these settings of the camera: three to five exposures and --save-response.';
    return [gate('RESPONSE_UNUSED', 'warn', null, ['evenness', 'spots', 'luminance', 'colour'], message, remedy)];
  }
  const { camera, leftOutError, photoCount } = use.stored;
  const message = `The tone curve of ${camera.model} at ISO ${camera.iso} was used as it was recovered from ${photoCount} exposures (photos left out told within ${percent(leftOutError)}).`;
  const remedy = 'Recover it anew after any change of the camera’s picture style that its files do not tell.';
  return [gate('TONE_CURVE', 'note', leftOutError, ['evenness', 'spots', 'luminance', 'colour'], message, remedy)];
}
