import type { ScreenPixels } from '../../contract/bench';
import type { Corners } from '../../base/points';
import { findOutlines, type EnginePorts, type MeasureRun } from '../../engine';
import { straightenLive } from '../../live/live-window';
import { pictureOf } from '../../live/picture';
import { photoRegionFor } from '../../window/rectify';
import type { EngineTasks } from './messages';
import { linearPart, screenPixels } from './screen-parts';

type Asked = EngineTasks['thumbnail']['asks'];

/** Photo pixels for each of the picture's, along a side: enough for the picture, few enough to be quick. */
const finer = 2;

async function cornersOf({ photo, window }: Asked, ports: EnginePorts, run: MeasureRun): Promise<Corners | null> {
  if (window === null || window.corners) return window?.corners ?? null;
  const [found] = await findOutlines({ photos: [photo] }, ports, run);
  return ('candidates' in found && found.candidates.at(0)?.corners) || null;
}

/** A window of a photo seen straight on, small; the whole photo where no window is known or found. @rule BE20 */
export async function windowThumbnail(asked: Asked, ports: EnginePorts, run: MeasureRun): Promise<ScreenPixels> {
  const { photo, window, mostSidePx } = asked;
  const corners = await cornersOf(asked, ports, run);
  if (window === null || corners === null) return screenPixels({ photo, mostSidePx, region: null }, ports);
  const { facts } = await ports.decodePhoto(photo.path, { regionPx: null });
  const { widthPx, heightPx } = facts;
  const region = photoRegionFor(corners, widthPx, heightPx, 2);
  const part = await linearPart({ photo, region, mostPixels: (finer * mostSidePx) ** 2 }, ports);
  const { widthMm, heightMm } = window;
  const settings = {
    widthMm,
    heightMm,
    shape: { kind: 'rectangle' },
    leaveOut: [],
    photo: { widthPx, heightPx },
    print: null,
    isFromGreen: false,
    viewingDistanceMm: 500,
  } as const;
  const straight = straightenLive({ settings }, part, corners, mostSidePx / Math.max(widthMm, heightMm));
  return { ...pictureOf(straight), photoWidthPx: widthPx, photoHeightPx: heightPx };
}
