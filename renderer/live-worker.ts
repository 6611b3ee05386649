import type { LinearPart } from '../core/contract/bench';
import { AppError } from '../core/base/errors';
import type { Corners } from '../core/base/points';
import { partForWindow } from '../core/live/linear-part';
import { prepareLive, readLive, type LiveSettings, type LiveWindow } from '../core/live/live-window';
import { pictureOf } from '../core/live/picture';
import type { LiveLooked, ToLiveWorker } from './live-messages';

// Follows a dragged corner beside the page, so that a look never holds up the drag itself.

let light: LinearPart | null = null;
let ready: { readonly live: LiveWindow; readonly part: LinearPart } | null = null;
let asked: { readonly settings: LiveSettings; readonly corners: Corners } | null = null;

function prepare(): void {
  if (!light || !asked) return;
  const { settings, corners } = asked;
  const live = prepareLive(settings);
  ready = { live, part: partForWindow(light, corners, settings, live.pxPerMm) };
}

/** Corners that were asked about before the light had come. */
let unanswered: Corners | null = null;

function look(corners: Corners): LiveLooked {
  if (!ready) return { score: null, picture: null };
  try {
    const { score, window } = readLive(ready.live, ready.part, corners);
    return { score, picture: pictureOf(window) };
  } catch (error) {
    // Corners that cross for a moment are part of a drag; anything else is a defect.
    if (error instanceof AppError) return { score: null, picture: null };
    throw error;
  }
}

function answer(corners: Corners): void {
  const looked = look(corners);
  unanswered = ready ? null : corners;
  self.postMessage(looked, { transfer: looked.picture ? [looked.picture.rgba.buffer] : [] });
}

self.onmessage = ({ data }: MessageEvent<ToLiveWorker>): void => {
  if (data.type === 'look') {
    answer(data.corners);
    return;
  }
  if (data.type === 'part') light = data.part;
  else asked = data;
  prepare();
  if (unanswered && ready) answer(unanswered);
};
