import type { FigureGroup, Gate, GateCode } from '../../contract/gates';
import type { PhotoPair } from './photo-pair';

function warning(
  code: GateCode,
  value: number | null,
  affects: readonly FigureGroup[],
  message: string,
  remedy: string,
): Gate {
  return { code, level: 'warn', message, remedy, value, affects };
}

/**
 * What keeps a photo from being compared with the reference's, or makes it unsafe. They warn: figures of the photo itself stand.
 *
 * @source limits our own choice: exposure a third of a stop, size of the window a fifth
 * @rule RF2
 */
export function referenceGates(pair: PhotoPair): Gate[] {
  if (pair.isSelf || pair.isOnePhoto) return [];
  const raised: Gate[] = [];
  if (pair.exposureApartEv !== null) {
    const [size, way] = [Math.abs(pair.exposureApartEv).toFixed(1), pair.exposureApartEv > 0 ? 'more' : 'less'];
    const message = `Exposed ${size} EV ${way} than the reference: small differences of evenness are not safe.`;
    const remedy = 'Photograph both with the same exposure time, f-number and ISO.';
    raised.push(warning('EXPOSURE_DIFFERS', pair.exposureApartEv, ['evenness', 'luminance'], message, remedy));
  }
  if (pair.isOtherLens) {
    const message = `Camera or focal length are not those of the reference: ${pair.isOtherCamera ? 'another camera' : 'another focal length'}.`;
    const remedy = 'Photograph both with one camera and one focal length.';
    raised.push(warning('LENS_CHANGED', null, ['luminance', 'colour'], message, remedy));
  } else if (pair.colourTie.by === null && pair.colourTie.verdict === 'differs') {
    const message = `The colour cannot be compared with the reference: ${pair.colourTie.reason}.`;
    const remedy = 'Set one white balance by hand for both, or name a witness patch in both.';
    raised.push(warning('WHITE_BALANCE_DIFFERS', null, ['colour'], message, remedy));
  }
  if (pair.isOtherScale) {
    const message = `The window is ${pair.scaleRatio.toFixed(1)} times as large in one photo as in the other: blur takes more red from the smaller one.`;
    const remedy = 'Photograph both from one place, or scale neither.';
    raised.push(warning('SCALE_DIFFERS', pair.scaleRatio, ['redPrint'], message, remedy));
  }
  return raised;
}
