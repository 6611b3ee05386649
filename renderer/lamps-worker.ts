import { measuredMap } from '../core/advice/measured-map';
import { addLamps, bestCurrents, type SingleLamp } from '../core/advice/single-lamps/add-lamps';
import { AppError } from '../core/base/errors';
import type { FromLampsWorker, LampAlone, ToLampsWorker } from './lamps-messages';

// Adds up lamps that were photographed one at a time, beside the page: the search for the best currents takes a second.

/** Cells a mm of a reading's maps; the sum has half as many. */
const mapPxPerMm = 4;

let lamps: readonly SingleLamp[] = [];

function lampOf({ name, score, glow, widthMm, heightMm, isExposureNormalised }: LampAlone): SingleLamp {
  return { name, score, map: measuredMap(glow, mapPxPerMm, widthMm, heightMm, isExposureNormalised) };
}

const tell = (message: FromLampsWorker): void => self.postMessage(message);

function act(asked: ToLampsWorker): void {
  if (asked.type === 'lamps') {
    lamps = asked.lamps.map(lampOf);
    const { ratioFigures, evenness } = bestCurrents(lamps);
    tell({ type: 'best', ratios: ratioFigures, evenness });
    return;
  }
  const { ratios, evenness, light } = addLamps(lamps, asked.ratios);
  tell({ type: 'sum', ratios, evenness, light, cellsPerMm: mapPxPerMm / 2 });
}

self.onmessage = ({ data }: MessageEvent<ToLampsWorker>): void => {
  try {
    act(data);
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    const { code, message, remedy } = error;
    tell({ type: 'refused', error: { code, message, remedy } });
  }
};
