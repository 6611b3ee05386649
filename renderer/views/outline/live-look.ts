import { useEffect, useRef, useState } from 'preact/hooks';
import type { Corners } from '../../../core/base/points';
import type { PhotoRegion } from '../../../core/contract/bench';
import type { MappedWindow } from '../../../core/contract/measure';
import type { OutlineShape } from '../../../core/contract/outline';
import type { LiveLooked, ToLiveWorker } from '../../live-messages';
import type { SizeMm } from '../../canvas/viewport';
import { CallFailed } from '../../link/bench-link';
import type { PhotoOnBench } from '../../state/bench-state';
import type { PhotoPicture } from '../../state/photo-pictures';
import { useBench } from '../bench-context';
import type { FourCorners } from './draft';

export interface LiveLook {
  readonly frame: ImageData | null;
  readonly score: number | null;
}

export interface LiveAsked {
  readonly photo: PhotoOnBench;
  readonly picture: PhotoPicture;
  readonly corners: FourCorners;
  readonly size: SizeMm;
  readonly shape: OutlineShape;
  readonly entry: MappedWindow | undefined;
  readonly isMoving: boolean;
}

/** Light of so many pixels round the window is kept for the drag. */
const mostPixels = 3_000_000;
/** Of the window's size, on each side: a corner dragged farther is followed by the outline only. */
const margin = 0.25;

const cornersOf = (four: FourCorners): Corners => four.map(([column, row]) => ({ column, row })) as unknown as Corners;

/** The part of the photo that holds the window, with some room for the drag. */
function regionRound(four: FourCorners, { photoWidthPx, photoHeightPx }: PhotoPicture): PhotoRegion {
  const columns = four.map(([column]) => column);
  const rows = four.map(([, row]) => row);
  const spare = margin * Math.max(Math.max(...columns) - Math.min(...columns), Math.max(...rows) - Math.min(...rows));
  const column = Math.max(0, Math.floor(Math.min(...columns) - spare));
  const row = Math.max(0, Math.floor(Math.min(...rows) - spare));
  return {
    column,
    row,
    width: Math.min(photoWidthPx, Math.ceil(Math.max(...columns) + spare)) - column,
    height: Math.min(photoHeightPx, Math.ceil(Math.max(...rows) + spare)) - row,
  };
}

/** A worker that looks at one set of corners at a time; corners that come meanwhile replace each other. */
class LiveWorker {
  readonly #worker = new Worker('live-worker.js', { type: 'module' });
  #isBusy = false;
  #next: Corners | null = null;

  constructor(onLooked: (looked: LiveLooked) => void) {
    this.#worker.onmessage = ({ data }: MessageEvent<LiveLooked>) => {
      this.#isBusy = false;
      onLooked(data);
      if (this.#next) this.look(this.#next);
    };
  }

  send(message: ToLiveWorker): void {
    this.#worker.postMessage(message);
  }

  look(corners: Corners): void {
    this.#next = this.#isBusy ? corners : null;
    if (this.#isBusy) return;
    this.#isBusy = true;
    this.send({ type: 'look', corners });
  }

  end(): void {
    this.#worker.terminate();
  }
}

/** What the window looks like and scores with its corners as they are being dragged. */
export function useLiveLook({ photo, picture, corners, size, shape, entry, isMoving }: LiveAsked): LiveLook {
  const bench = useBench();
  const [look, setLook] = useState<LiveLook>({ frame: null, score: null });
  const worker = useRef<LiveWorker | null>(null);

  useEffect(() => {
    const live = new LiveWorker(({ score, picture: seen }) => {
      performance.mark('live-look');
      setLook({ score, frame: seen ? new ImageData(seen.rgba, seen.width, seen.height) : null });
    });
    worker.current = live;
    bench.link.call('linear', { photo: photo.id, region: regionRound(corners, picture), mostPixels }).then(
      (part) => live.send({ type: 'part', part }),
      (error: unknown) => {
        // Without the light there is no quick look; the full reading still follows when the corner rests.
        if (!(error instanceof CallFailed)) throw error;
      },
    );
    return () => live.end();
  }, [photo.id, picture.photoWidthPx]);

  useEffect(() => {
    const { widthMm, heightMm } = size;
    const print = entry && {
      corners: cornersOf(entry.reading.outline.cornersPx as unknown as FourCorners),
      widthMm: entry.maps.widthMm,
      heightMm: entry.maps.heightMm,
      covered: entry.maps.coveredByPrint,
      isLit: entry.reading.outline.print === 'light',
    };
    worker.current?.send({
      type: 'settings',
      corners: cornersOf(corners),
      settings: {
        widthMm,
        heightMm,
        shape,
        leaveOut: photo.settings.window.leaveOut,
        photo: { widthPx: picture.photoWidthPx, heightPx: picture.photoHeightPx },
        print: print ?? null,
        isFromGreen: entry?.maps.isFromGreen ?? false,
        viewingDistanceMm: photo.settings.viewingDistanceMm,
      },
    });
  }, [photo.id, entry, size.widthMm, size.heightMm, shape.kind, photo.settings]);

  useEffect(() => {
    if (isMoving) worker.current?.look(cornersOf(corners));
    else setLook({ frame: null, score: null });
  }, [corners, isMoving]);
  return look;
}
