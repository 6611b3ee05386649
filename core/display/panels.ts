import { blurMasked } from '../base/gaussian';
import type { Mask, Plane } from '../base/plane';
import { medianOf } from '../base/stats';
import type { MappedWindow } from '../contract/measure';
import { differenceColour, encodedFromLinear, luminanceColour, rgbFromOklab, type Rgb } from './colour-scale';

/** What one cell of a panel shows: a colour, hatched when it was not scored; null outside the outline. */
export interface PanelCell {
  readonly colour: Rgb;
  readonly hatched: boolean;
}

export interface ScaleTick {
  /** 0 at the lower end of the scale, 1 at the upper. */
  readonly share: number;
  readonly label: string;
}

export interface PanelScale {
  readonly colourAt: (share: number) => Rgb;
  readonly ticks: readonly ScaleTick[];
}

export interface PanelMark {
  readonly xMm: number;
  readonly yMm: number;
  readonly label: string;
  readonly kind: 'hot' | 'dark';
}

export interface Panel {
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly cellsPerMm: number;
  readonly cellAt: (index: number) => PanelCell | null;
  readonly scale?: PanelScale;
  readonly contours?: { readonly field: Plane; readonly levels: readonly ContourLevel[] };
  readonly marks?: readonly PanelMark[];
}

export interface ContourLevel {
  readonly value: number;
  readonly label: string;
  readonly bold: boolean;
}

/** Fixed limits, the same for every picture, so that trials can be laid side by side. */
const luminanceLimit = Math.log(3);
const unevennessLimit = Math.log(2);
const chromaticityLimit = 0.02;
const trialLimit = Math.log(1.5);

/** Of the maps of a reading. */
const mapCellsPerMm = 4;

/** Cells inside the outline without a value of their own. */
const emptyCell: PanelCell = { colour: [74, 74, 74], hatched: true };

/** Steps of a scale's table: finer than 8-bit colours can show. */
const scaleSteps = 1024;

/** A scale as a table, since each of its colours takes a power series. */
function tabled(colourAt: (share: number) => Rgb): (share: number) => Rgb {
  const table = Array.from({ length: scaleSteps + 1 }, (_, i) => colourAt(i / scaleSteps));
  return (share) => table[Math.min(scaleSteps, Math.max(0, Math.round(share * scaleSteps)))];
}

const luminanceRgb = tabled((share) => rgbFromOklab(luminanceColour(share)));
const differenceRgb = tabled((share) => rgbFromOklab(differenceColour(2 * share - 1)));

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

/** A forecast of light, over its own median, on the scale of `luminancePanel`. @param light  NaN: no forecast @rule MP4 */
export function forecastPanel(light: Plane, cellsPerMm: number): Panel {
  const ratios = logRatio(light, medianOf(finiteValues(light)));
  return {
    title: 'Forecast luminance, relative to its median',
    width: light.width,
    height: light.height,
    cellsPerMm,
    cellAt: (i) => {
      if (Number.isNaN(ratios.values[i])) return emptyCell;
      return { colour: luminanceRgb(ratios.values[i] / (2 * luminanceLimit) + 0.5), hatched: false };
    },
    scale: luminanceScale,
    contours: { field: smoothedForLines(ratios), levels: quarterStops },
  };
}

/** The light over so many times the median of the glow. */
function lightPanel({ maps, reading }: MappedWindow, title: string, times: number): Panel {
  const { filledLuminance, glowLuminance } = maps;
  const ratios = logRatio(filledLuminance, times * medianOf(finiteValues(glowLuminance)));
  return {
    title,
    width: filledLuminance.width,
    height: filledLuminance.height,
    cellsPerMm: 4,
    cellAt: (i) => {
      if (Number.isNaN(filledLuminance.values[i])) return null;
      if (Number.isNaN(ratios.values[i])) return emptyCell;
      const colour = luminanceRgb(ratios.values[i] / (2 * luminanceLimit) + 0.5);
      return { colour, hatched: Number.isNaN(glowLuminance.values[i]) };
    },
    scale: luminanceScale,
    contours: { field: smoothedForLines(ratios), levels: quarterStops },
    marks: reading.spots.map(({ xMm, yMm, kind }, i) => ({ xMm, yMm, kind, label: String(i + 1) })),
  };
}

/** The light over the median of the glow, with lines a quarter stop apart and the spots. @rule MP4 */
export const luminancePanel = (entry: MappedWindow): Panel =>
  lightPanel(entry, 'Luminance, relative to the median of the glow; lines a quarter stop apart', 1);

/**
 * The same over the glow of a brighter window, so that both can be looked at on one scale.
 *
 * @param share  of this window's glow in that of the brighter one, 0..1
 * @rule MP4
 */
export const dimmerPanel = (entry: MappedWindow, share: number): Panel =>
  lightPanel(entry, 'Luminance, relative to the glow of the brighter window; lines a quarter stop apart', 1 / share);

/**
 * The same for light of a whole window on a coarser grid, cut to the window's outline.
 *
 * @param cellsPerMm  of the light's grid
 * @rule MP4
 */
export function windowForecastPanel(light: Plane, cellsPerMm: number, { maps }: Pick<MappedWindow, 'maps'>): Panel {
  const { filledLuminance } = maps;
  const { width, height } = filledLuminance;
  const share = cellsPerMm / mapCellsPerMm;
  const place = (at: number, length: number): number => Math.min(length - 1, Math.floor((at + 0.5) * share));
  const values = filledLuminance.values.map((filled, i) =>
    Number.isNaN(filled)
      ? NaN
      : light.values[place(Math.floor(i / width), light.height) * light.width + place(i % width, light.width)],
  );
  const panel = forecastPanel({ width, height, values }, mapCellsPerMm);
  return { ...panel, cellAt: (i) => (Number.isNaN(filledLuminance.values[i]) ? null : panel.cellAt(i)) };
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

/** The scales that luminance and unevenness have in every picture. @rule MP4 */
export const luminanceScale: PanelScale = { colourAt: luminanceRgb, ticks: luminanceTicks };
export const unevennessScale: PanelScale = { colourAt: differenceRgb, ticks: unevennessTicks };

/** A plane less its mean. */
function aboutMean(plane: Plane): Plane {
  const values = finiteValues(plane);
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return { ...plane, values: plane.values.map((value) => value - mean) };
}

/** Unevenness as the eye sees it; all hatched when it was refused. @rule MP4 */
export function unevennessPanel({ maps }: MappedWindow): Panel {
  const { filledLuminance, visibleUnevenness } = maps;
  const plane = visibleUnevenness ?? { ...filledLuminance, values: filledLuminance.values.map(() => NaN) };
  const title = 'Unevenness as the eye sees it: sand too bright, blue too dark, grey not seen';
  return differencePanel(title, plane, filledLuminance, unevennessLimit, unevennessTicks);
}

/** Where the colour differs from the mean of the glow: u' and v'. @rule MP4 */
export function chromaticityPanels({ maps }: MappedWindow): readonly [Panel, Panel] {
  const panel = (title: string, plane: Plane): Panel =>
    differencePanel(title, aboutMean(plane), maps.filledLuminance, chromaticityLimit, chromaticityTicks);
  return [
    panel("u' less its mean: sand redder, blue greener", maps.uPrime),
    panel("v' less its mean: sand yellower, blue bluer", maps.vPrime),
  ];
}

const trialTicks: readonly ScaleTick[] = [1 / 1.5, 0.8, 0.9, 1, 1.1, 1.25, 1.5].map((ratio) => ({
  share: Math.log(ratio) / (2 * trialLimit) + 0.5,
  label: `${Number(ratio.toPrecision(3))}×`,
}));

/** Where trial b has more of its light than trial a, and where less. @param plane ln units @rule PR7 */
export function trialDifferencePanel(plane: Plane, { maps }: MappedWindow): Panel {
  const title = 'Share of the light, one trial over the other: sand more, blue less, grey alike';
  return differencePanel(title, plane, maps.filledLuminance, trialLimit, trialTicks);
}

/** Steps of linear light in the table: off by one code at most. */
const lightSteps = 16_384;
const codes = Uint8Array.from({ length: lightSteps + 1 }, (_, i) =>
  Math.round(255 * encodedFromLinear(i / lightSteps)),
);

/** 8-bit sRGB code of linear light; clips. A window has half a million values, too many for a power each. */
function codeOf(light: number): number {
  return codes[Math.min(lightSteps, Math.max(0, Math.round(light * lightSteps)))];
}

/** The window seen straight on, as the photo shows it. @rule MP4 */
export function windowPanel({ maps }: MappedWindow): Panel {
  const { width, height, rgb } = maps.window;
  return {
    title: 'The window seen straight on, as the photo shows it',
    width,
    height,
    cellsPerMm: 10,
    cellAt: (i) => {
      const [r, g, b] = [rgb[3 * i], rgb[3 * i + 1], rgb[3 * i + 2]];
      return Number.isFinite(r + g + b) ? { colour: [codeOf(r), codeOf(g), codeOf(b)], hatched: false } : null;
    },
  };
}

const redPrintColour: Rgb = [214, 74, 46];
const darkPrintColour: Rgb = [24, 24, 24];
const glowColour: Rgb = [196, 196, 196];

/** Which cells were taken for red and for dark print, or of a black dial for its ground; the rest of the window is plain grey. @rule MP4 */
export function printPanel({ maps, reading }: MappedWindow): Panel {
  const { redPrint, darkPrint, coveredByPrint, window } = maps;
  const isLit = reading.outline.print === 'light';
  const dark = isLit ? coveredByPrint : darkPrint;
  return {
    title: isLit ? 'Lit figures that were found: grey' : 'Print that was found: red, and dark; grey is glow',
    width: redPrint.width,
    height: redPrint.height,
    cellsPerMm: 10,
    cellAt: (i) => {
      if (!Number.isFinite(window.rgb[3 * i])) return null;
      const colour = redPrint.values[i] ? redPrintColour : dark.values[i] ? darkPrintColour : glowColour;
      return { colour, hatched: false };
    },
  };
}
