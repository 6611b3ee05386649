import type { Plane } from '../../base/plane';
import type { MappedWindow } from '../../contract/measure';
import { printable, shortFigure } from '../../display/figure-text';
import {
  chromaticityPanels,
  luminancePanel,
  trialDifferencePanel,
  unevennessPanel,
  windowPanel,
} from '../../display/panels';
import { unscoredPart } from '../../display/unscored';
import type { Canvas } from './canvas';
import { drawMapPicture, type PictureText } from './map-picture';

function textOf(entry: MappedWindow, figure: string, note: string): PictureText {
  const { name, window } = entry.reading;
  return { title: printable(window === 'window' ? name : `${name}, ${window}`), figure: printable(figure), note };
}

function evennessText({ reading }: MappedWindow): string {
  const { score, words } = reading.evenness;
  if (score.value === null) return `Evenness: no figure (${score.reason ?? ''})`;
  return `Evenness ${shortFigure(score)} of 100: ${words}`;
}

const sameScale = 'The scale is the same in all pictures.';

/** `NAME.luminance.png` @rule MP4 */
export function luminancePicture(entry: MappedWindow): Canvas {
  const note = `Hatched: ${unscoredPart(entry.reading)} (filled in) and border, never scored. ${sameScale}`;
  return drawMapPicture([luminancePanel(entry)], textOf(entry, evennessText(entry), note));
}

/** `NAME.unevenness.png`: all hatched, with the reason, when it was refused. @rule MP4 */
export function unevennessPicture(entry: MappedWindow): Canvas {
  const note = `Hatched: no value. ${sameScale}`;
  return drawMapPicture([unevennessPanel(entry)], textOf(entry, evennessText(entry), note));
}

/** `NAME.chromaticity.png`: u' and v' as differences from the mean of the glow, one under the other. @rule MP4 */
export function chromaticityPicture(entry: MappedWindow): Canvas {
  const colour = entry.reading.colour;
  const figure = colour.cctK.value === null ? '' : `${shortFigure(colour.cctK)} K, `;
  const spread = `spread ${shortFigure(colour.spreadUv, 1000)} × 0.001 u'v'`;
  const note = `Not the colour itself, only where it differs. Hatched: no value. ${sameScale}`;
  return drawMapPicture(chromaticityPanels(entry), textOf(entry, `${figure}${spread}`, note));
}

/** `NAME-minus-NAME.difference.png`: the first name is b, the second a. @rule PR7 */
export function differencePicture(difference: Plane, a: MappedWindow, b: MappedWindow): Canvas {
  const title = printable(`${b.reading.name} less ${a.reading.name}`);
  const { window } = b.reading;
  const note = `Each over its own median. Hatched: ${unscoredPart(b.reading)} and border, not compared. ${sameScale}`;
  const text = { title, figure: window === 'window' ? '' : printable(window), note };
  return drawMapPicture([trialDifferencePanel(difference, b)], text);
}

/** `NAME.window.png`: the window seen straight on, as the photo shows it. @rule MP4 */
export function windowPicture(entry: MappedWindow): Canvas {
  const { widthMm, heightMm, sizeKnown } = entry.reading.outline;
  const size = `${Number(widthMm.toPrecision(3))} × ${Number(heightMm.toPrecision(3))} mm${sizeKnown ? '' : ' (assumed)'}`;
  const photos = entry.reading.photos.map((photo) => printable(photo.file)).join(', ');
  return drawMapPicture([windowPanel(entry)], textOf(entry, size, photos));
}
