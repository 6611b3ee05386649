import {
  afterColour,
  beforeColour,
  faint,
  quiet,
  thinLine,
  type DrawnItem,
  type DrawnPoint,
  type Drawing,
  type Stroke,
} from './drawing';
import { layOutPictures } from './picture-layout';
import type { ProfilePoint } from '../display/profile';
import { profileThrough } from './profile';
import { rulerBelow } from './rulers';
import { sheetWidthMm } from './sheet-content';
import { sidesOf, sizeOf, type ShownWindow, type Side } from './shown-window';

const strokeOf: Readonly<Record<Side, Stroke>> = {
  after: { colour: afterColour, widthMm: 0.55 },
  before: { colour: beforeColour, widthMm: 0.45, dashMm: [0.5, 0.9] },
};

const chartHeightMm = 34;
/** Lines of the chart; those within its limits are drawn. */
const levels = [0.1, 0.2, 0.35, 0.5, 0.7, 0.85, 1, 1.2, 1.4, 2, 2.8, 4, 8];

interface Limits {
  readonly least: number;
  readonly most: number;
}

/** From the next level below everything shown to the next above, at least 0.85 to 1.2. */
function limitsOf(profiles: readonly (readonly ProfilePoint[])[]): Limits {
  const ratios = profiles.flat().flatMap(({ ratio }) => (ratio === null || ratio <= 0 ? [] : [ratio]));
  const [least, most] = [Math.min(0.9, ...ratios), Math.max(1.1, ...ratios)];
  return {
    least: levels.filter((level) => level <= least).at(-1) ?? least,
    most: levels.find((level) => level >= most) ?? most,
  };
}

/** Runs of points that have a value. */
function runsOf(points: readonly ProfilePoint[]): { alongMm: number; ratio: number }[][] {
  const runs: { alongMm: number; ratio: number }[][] = [[]];
  for (const { alongMm, ratio } of points) {
    if (ratio !== null && ratio > 0) runs.at(-1)!.push({ alongMm, ratio });
    else if (runs.at(-1)!.length > 0) runs.push([]);
  }
  return runs.filter((run) => run.length > 1);
}

const topMm = 5;

/** One chart from `leftMm` on; empty without a photo whose maps are there. */
function chartItems(shown: ShownWindow, way: 'across' | 'down', leftMm: number, scale: number): DrawnItem[] {
  const profiles = sidesOf(shown).flatMap(({ side, measured }) =>
    measured.maps ? [{ side, points: profileThrough(measured.maps.glowLuminance, way) }] : [],
  );
  if (profiles.length === 0) return [];
  const limits = limitsOf(profiles.map(({ points }) => points));
  const length = sizeOf(shown)[way === 'across' ? 0 : 1];
  const right = leftMm + length * scale;
  const y = (ratio: number): number =>
    topMm + chartHeightMm * (1 - Math.log(ratio / limits.least) / Math.log(limits.most / limits.least));
  const head = way === 'across' ? 'From left to right' : 'From top to bottom';
  const grid = levels
    .filter((level) => level >= limits.least && level <= limits.most)
    .flatMap((level): DrawnItem[] => [
      {
        kind: 'line',
        points: [[leftMm, y(level)], [right, y(level)]], // prettier-ignore
        stroke: level === 1 ? thinLine : { colour: faint, widthMm: 0.15 },
      },
      { kind: 'text', at: [leftMm - 1, y(level) + 0.9], text: `${level}×`, sizePt: 6.5, align: 'right', colour: quiet },
    ]);
  const curves = profiles.flatMap(({ side, points }) =>
    runsOf(points).map((run): DrawnItem => {
      const drawn = run.map(({ alongMm, ratio }): DrawnPoint => [leftMm + alongMm * scale, y(ratio)]);
      return { kind: 'line', points: drawn, stroke: strokeOf[side] };
    }),
  );
  return [
    { kind: 'text', at: [leftMm, topMm - 2], text: head, sizePt: 7.5, colour: quiet },
    ...grid,
    ...curves,
    ...rulerBelow([leftMm, topMm + chartHeightMm], length, scale),
  ];
}

/**
 * Luminance through the middle of the window, before and after, on one logarithmic axis, sharing its mm with the pictures
 * above it; of a window whose pictures stand side by side also from top to bottom, on the second one's place.
 *
 * @returns null without a photo whose maps are there
 * @rule RS5
 */
export function profileChart(shown: ShownWindow): Drawing | null {
  const { places, scale, isStacked } = layOutPictures(sizeOf(shown), Math.max(1, sidesOf(shown).length));
  const across = chartItems(shown, 'across', places[0][0], scale);
  if (across.length === 0) return null;
  const beside = isStacked ? [] : chartItems(shown, 'down', places[1][0], scale);
  return {
    widthMm: sheetWidthMm,
    heightMm: topMm + chartHeightMm + 7,
    title: `Luminance of ${shown.window.name} through its middle`,
    items: [...across, ...beside],
  };
}
