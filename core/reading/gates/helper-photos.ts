import type { Gate } from '../../contract/gates';
import type { PreparedWindow } from '../../preparation/prepare-window';
import { everything, gate, percent } from './gate';

/** More of the glow darker than the room alone is no noise. @source our own choice */
const mostNegative = 0.05;

/** What the photos beside the lit one could not be used for. @rule GT6 */
export function helperPhotoGates({ lampOff, flatField }: Pick<PreparedWindow, 'lampOff' | 'flatField'>): Gate[] {
  const raised: Gate[] = [];
  const again = 'Photograph again with the lamps off: camera, settings and room light left as they were.';
  if (lampOff?.state === 'refused') {
    const message = `The lamp-off photo does not fit: ${lampOff.reason}. It was not subtracted.`;
    const affects = ['evenness', 'luminance', 'colour', 'redPrint'] as const;
    raised.push(gate('LAMP_OFF_MISMATCH', 'warn', null, affects, message, again));
  }
  if (lampOff?.state === 'subtracted' && lampOff.negativeShare > mostNegative) {
    const message = `${percent(lampOff.negativeShare)} of the glow is darker than the lamp-off photo: it came out as black.`;
    raised.push(gate('LAMP_OFF_MISMATCH', 'warn', lampOff.negativeShare, everything, message, again));
  }
  if (flatField?.state === 'refused') {
    const message = `The flat field does not fit: ${flatField.reason}. The light was not divided by it.`;
    const remedy =
      'Photograph an evenly lit white sheet with the same focal length, aperture and focus, at about code 150-200.';
    raised.push(gate('FLAT_FIELD_UNUSABLE', 'warn', null, ['evenness'], message, remedy));
  }
  return raised;
}
