import type { LinearPart } from '../contract/bench';
import type { LinearPhoto } from '../base/linear-photo';
import { createMask, type Mask, type Plane } from '../base/plane';
import type { Corners } from '../base/points';
import type { WindowSpec } from '../contract/measure';
import { scoreEvenness } from '../reading/evenness';
import { buildGlowMap } from '../reading/glow-map-build';
import { glowOutlineOf, type GlowOutline } from '../reading/glow-outline';
import { leastFreeShare, mapPxPerMm as fullMapPxPerMm, windowPxPerMm as fullWindowPxPerMm } from '../reading/glow-view';
import { checkCorners } from '../window/corners';
import { homographyFromCorners } from '../window/homography';
import type { RectifiedWindow } from '../window/rectified';
import { rectifyWindow } from '../window/rectify';
import { frozenPrintAt, type FrozenPrint } from './frozen-print';
import { holdsWindow } from './linear-part';

/** What stays the same while a corner is dragged. */
export interface LiveSettings extends Pick<WindowSpec, 'widthMm' | 'heightMm' | 'shape' | 'leaveOut'> {
  /** Upright size of the whole photo. */
  readonly photo: { readonly widthPx: number; readonly heightPx: number };
  /** From the last full reading; null when there was none: then nothing counts as print. */
  readonly print: FrozenPrint | null;
  /** As the last full reading did; see `ReadingMaps.isFromGreen`. */
  readonly isFromGreen: boolean;
  readonly viewingDistanceMm: number;
}

/** A window made ready for following a corner; keep it for the whole drag. */
export interface LiveWindow {
  readonly settings: LiveSettings;
  /** Cells a mm of the straightened window, and of the map that is scored. */
  readonly pxPerMm: number;
  readonly mapPxPerMm: number;
  readonly outline: GlowOutline;
}

/** What is told at each step of a drag. */
export interface LiveReading {
  /** 0..100 as in the full reading, without plus-minus; null with a reason. */
  readonly score: number | null;
  readonly reason: string | null;
  /** Share of the shrunk outline that is glow, 0..1. */
  readonly glowShare: number;
  /** ln units, positive = too bright, NaN where there is no glow; null without a score. At `mapPxPerMm` of the live window. */
  readonly visibleUnevenness: Plane | null;
  /** The window straightened, at `pxPerMm` of the live window; for `pictureOf`. */
  readonly window: RectifiedWindow;
}

/** Cells a mm of the map: the score feels no more of them, and each takes time. */
const usualMapPxPerMm = 2;
/** A small window has a border under 1 mm, which half a millimetre does not measure out. */
const smallMapPxPerMm = 4;
/** As many window cells a map cell, along a side, as the full reading has. */
const windowCellsPerMapCell = fullWindowPxPerMm / fullMapPxPerMm;

/**
 * The masks that a drag needs at every step, made once.
 *
 * The map has 2 cells a mm, the straightened window 5; 4 and 10 where the border is under 1 mm (shorter side under 12.5 mm).
 *
 * @throws AppError of kind 'usage' for polygons that cannot be meant
 * @source our own choice
 * @rule LV3
 */
export function prepareLive(settings: LiveSettings): LiveWindow {
  const isSmall = Math.min(settings.widthMm, settings.heightMm) < 12.5;
  const mapPxPerMm = isSmall ? smallMapPxPerMm : usualMapPxPerMm;
  const pxPerMm = windowCellsPerMapCell * mapPxPerMm;
  return { settings, pxPerMm, mapPxPerMm, outline: glowOutlineOf(settings, pxPerMm, mapPxPerMm) };
}

function asPhoto(part: LinearPart, { photo }: LiveSettings): LinearPhoto {
  const { region, reducedBy, width, height, rgb } = part;
  return {
    ...photo,
    region: { ...region, width: width * reducedBy, height: height * reducedBy },
    reducedBy,
    rgb,
    flags: new Uint8Array(width * height),
    colourSpace: 'linear sRGB',
    colourSpaceAssumed: false,
    response: 'unknown',
  };
}

/** The window straightened at its present corners. @param pxPerMm cells a mm @rule LV3 */
export function straightenLive(
  { settings }: Pick<LiveWindow, 'settings'>,
  part: LinearPart,
  corners: Corners,
  pxPerMm: number,
): RectifiedWindow {
  const { widthMm, heightMm, photo } = settings;
  checkCorners(corners, photo.widthPx, photo.heightPx);
  return rectifyWindow(
    asPhoto(part, settings),
    homographyFromCorners(corners, widthMm, heightMm),
    widthMm,
    heightMm,
    pxPerMm,
  );
}

function coveredAt({ settings, pxPerMm }: LiveWindow, corners: Corners, { green }: RectifiedWindow): Mask {
  const { print, widthMm, heightMm } = settings;
  if (!print) return createMask(green.width, green.height);
  return frozenPrintAt(print, homographyFromCorners(corners, widthMm, heightMm), green, pxPerMm);
}

/**
 * The score of a window while its corners move: the same figure as the full reading's, on fewer cells, with the print that
 * the last full reading found. No gate is tried and no plus-minus is given: the full reading follows when the corner is let go.
 *
 * @param part     linear light that holds the window; best from `partForWindow`; not altered
 * @param corners  photo pixels
 * @throws AppError of kind outline, for impossible corners
 * @source as `scoreEvenness`
 * @rule LV3
 */
export function readLive(live: LiveWindow, part: LinearPart, corners: Corners): LiveReading {
  const { settings, outline, pxPerMm, mapPxPerMm } = live;
  const { widthMm, heightMm, print, isFromGreen, viewingDistanceMm } = settings;
  const window = straightenLive(live, part, corners, pxPerMm);
  const none = createMask(window.green.width, window.green.height);
  const covered = coveredAt(live, corners, window);
  const { borderMm } = outline;
  const map = buildGlowMap(
    window,
    {
      print: { dark: none, red: none, covered },
      outline: outline.inner,
      erodedWhole: outline.erodedWhole,
      leftOut: outline.leftOut,
    },
    {
      widthMm,
      heightMm,
      borderMm,
      pxPerMm: mapPxPerMm,
      useGreen: isFromGreen,
      leastFreeShare: print?.isLit ? leastFreeShare.litFigures : leastFreeShare.usual,
    },
  );
  const { glowShare } = map;
  const without = (reason: string): LiveReading => ({
    score: null,
    reason,
    glowShare,
    visibleUnevenness: null,
    window,
  });
  if (!holdsWindow(part, corners, settings.photo))
    return without('the window reaches beyond the part of the photo held');
  if (glowShare === 0) return without('nothing of the window glows');
  const { score, residual } = scoreEvenness(map.relLuminance, map.glow, {
    pxPerMm: mapPxPerMm,
    borderMm,
    viewingDistanceMm,
  });
  return { score, reason: null, glowShare, visibleUnevenness: residual, window };
}
