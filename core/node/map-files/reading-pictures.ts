import { blurMasked } from '../../base/gaussian';
import type { Mask, Plane } from '../../base/plane';
import { medianOf } from '../../base/stats';
import type { MappedWindow } from '../../contract/measure';
import { printable, shortFigure } from '../cli/figure-text';
import type { Canvas } from './canvas';
import { differenceColour, encodedFromLinear, luminanceColour, rgbFromOklab, type Rgb } from './colour-scale';
import type { ContourLevel } from './contours';
import { drawMapPicture, type Panel, type PanelCell, type PictureText, type ScaleTick } from './map-picture';

/** Fixed limits, the same for every picture, so that trials can be laid side by side. */
const luminanceLimit = Math.log(3);
const unevennessLimit = Math.log(2);
const chromaticityLimit = 0.02;

/** Cells inside the outline without a value of their own. */
const emptyCell: PanelCell = { colour: [74, 74, 74], hatched: true };

const luminanceRgb = (share: number): Rgb => rgbFromOklab(luminanceColour(share));
const differenceRgb = (share: number): Rgb => rgbFromOklab(differenceColour(2 * share - 1));

function finiteValues(plane: Plane): number[] {
  return Array.from(plane.values).filter((value) => Number.isFinite(value));
}

function finiteMask(plane: Plane): Mask {
  const { width, height } = plane;
  return { width, height, values: Uint8Array.from(plane.values, (value) => (Number.isFinite(value) ? 1 : 0)) };
}

/** ln of a light plane over a level; NaN outside. */
function logRatio(plane: Plane, level: number): Plane {
  const { width, height } = plane;
  return { width, height, values: plane.values.map((value) => (value > 0 ? Math.log(value / level) : NaN)) };
}

/** A plane smoothed a little for its contour lines only; NaN stays outside. */
function smoothedForLines(plane: Plane): Plane {
  const mask = finiteMask(plane);
  const { blurred } = blurMasked(plane, mask, 2);
  return { ...plane, values: blurred.values.map((value, i) => (mask.values[i] ? value : NaN)) };
}

const quarterStops: readonly ContourLevel[] = Array.from({ length: 25 }, (_, i) => {
  const quarter = i - 12;
  const ratio = 2 ** (quarter / 4);
  return { value: Math.log(ratio), label: ratio.toPrecision(2).replace(/\.0$/, ''), bold: quarter === 0 };
});

const luminanceTicks: readonly ScaleTick[] = [1 / 3, 0.5, 0.7, 1, 1.4, 2, 3].map((ratio) => ({
  share: Math.log(ratio) / (2 * luminanceLimit) + 0.5,
  label: `${Number(ratio.toPrecision(2))}×`,
}));

function luminancePanel({ maps, reading }: MappedWindow): Panel {
  const { filledLuminance, glowLuminance } = maps;
  const median = medianOf(finiteValues(glowLuminance));
  const ratios = logRatio(filledLuminance, median);
  return {
    title: 'Luminance, relative to the median of the glow; lines a quarter stop apart',
    width: filledLuminance.width,
    height: filledLuminance.height,
    cellsPerMm: 4,
    cellAt: (i) => {
      if (Number.isNaN(filledLuminance.values[i])) return null;
      if (Number.isNaN(ratios.values[i])) return emptyCell;
      const colour = luminanceRgb(ratios.values[i] / (2 * luminanceLimit) + 0.5);
      return { colour, hatched: Number.isNaN(glowLuminance.values[i]) };
    },
    scale: { colourAt: luminanceRgb, ticks: luminanceTicks },
    contours: { field: smoothedForLines(ratios), levels: quarterStops },
    marks: reading.spots.map(({ xMm, yMm, kind }, i) => ({ xMm, yMm, kind, label: String(i + 1) })),
  };
}

/** A map around zero on the scale with a middle; cells without a value are hatched grey. */
function differencePanel(
  title: string,
  plane: Plane,
  outline: Plane,
  limit: number,
  ticks: readonly ScaleTick[],
): Panel {
  return {
    title,
    width: plane.width,
    height: plane.height,
    cellsPerMm: 4,
    cellAt: (i) => {
      if (Number.isNaN(outline.values[i])) return null;
      if (!Number.isFinite(plane.values[i])) return emptyCell;
      return { colour: differenceRgb(plane.values[i] / (2 * limit) + 0.5), hatched: false };
    },
    scale: { colourAt: differenceRgb, ticks },
  };
}

const unevennessTicks: readonly ScaleTick[] = [
  { share: 1, label: '+100 %' },
  { share: 0.75, label: '+41 %' },
  { share: 0.5, label: 'unseen' },
  { share: 0.25, label: '−29 %' },
  { share: 0, label: '−50 %' },
];

const chromaticityTicks: readonly ScaleTick[] = [
  { share: 1, label: '+0.02' },
  { share: 0.75, label: '+0.01' },
  { share: 0.5, label: 'mean' },
  { share: 0.25, label: '−0.01' },
  { share: 0, label: '−0.02' },
];

/** A plane less its mean. */
function aboutMean(plane: Plane): Plane {
  const values = finiteValues(plane);
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return { ...plane, values: plane.values.map((value) => value - mean) };
}

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
  const note = `Hatched: print (filled in) and border, never scored. ${sameScale}`;
  return drawMapPicture([luminancePanel(entry)], textOf(entry, evennessText(entry), note));
}

/** `NAME.unevenness.png`: all hatched, with the reason, when it was refused. @rule MP4 */
export function unevennessPicture(entry: MappedWindow): Canvas {
  const { filledLuminance, visibleUnevenness } = entry.maps;
  const plane = visibleUnevenness ?? { ...filledLuminance, values: filledLuminance.values.map(() => NaN) };
  const title = 'Unevenness as the eye sees it: sand too bright, blue too dark, grey not seen';
  const panel = differencePanel(title, plane, filledLuminance, unevennessLimit, unevennessTicks);
  return drawMapPicture([panel], textOf(entry, evennessText(entry), `Hatched: no value. ${sameScale}`));
}

/** `NAME.chromaticity.png`: u' and v' as differences from the mean of the glow, one under the other. @rule MP4 */
export function chromaticityPicture(entry: MappedWindow): Canvas {
  const { filledLuminance, uPrime, vPrime } = entry.maps;
  const colour = entry.reading.colour;
  const figure = colour.cctK.value === null ? '' : `${shortFigure(colour.cctK)} K, `;
  const spread = `spread ${shortFigure(colour.spreadUv, 1000)} × 0.001 u'v'`;
  const panel = (title: string, plane: Plane): Panel =>
    differencePanel(title, aboutMean(plane), filledLuminance, chromaticityLimit, chromaticityTicks);
  return drawMapPicture(
    [
      panel("u' less its mean: sand redder, blue greener", uPrime),
      panel("v' less its mean: sand yellower, blue bluer", vPrime),
    ],
    textOf(
      entry,
      `${figure}${spread}`,
      `Not the colour itself, only where it differs. Hatched: no value. ${sameScale}`,
    ),
  );
}

/** `NAME.window.png`: the window seen straight on, as the photo shows it. @rule MP4 */
export function windowPicture(entry: MappedWindow): Canvas {
  const { width, height, rgb } = entry.maps.window;
  const code = (value: number): number => Math.round(255 * encodedFromLinear(value));
  const panel: Panel = {
    title: 'The window seen straight on, as the photo shows it',
    width,
    height,
    cellsPerMm: 10,
    cellAt: (i) => {
      const [r, g, b] = rgb.subarray(3 * i, 3 * i + 3);
      return Number.isFinite(r + g + b) ? { colour: [code(r), code(g), code(b)], hatched: false } : null;
    },
  };
  const { widthMm, heightMm, sizeKnown } = entry.reading.outline;
  const size = `${Number(widthMm.toPrecision(3))} × ${Number(heightMm.toPrecision(3))} mm${sizeKnown ? '' : ' (assumed)'}`;
  return drawMapPicture(
    [panel],
    textOf(entry, size, entry.reading.photos.map((photo) => printable(photo.file)).join(', ')),
  );
}
