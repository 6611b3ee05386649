import { useEffect, useState } from 'preact/hooks';
import type { PhotoId } from '../../../core/contract/bench';
import type { Comparison } from '../../../core/contract/comparison';
import type { Bench } from '../../state/bench';
import { isMeasured, type MeasuredPhotoOnBench, type PhotoOnBench } from '../../state/bench-state';
import { showSameWindow } from '../../state/same-window';

export interface Compared {
  /** Measured photos of the window in view, as they lie in the stack; the reference is among them. */
  readonly photos: readonly MeasuredPhotoOnBench[];
  readonly reference: PhotoId | null;
  /** Measured photos that show another window. */
  readonly leftOut: number;
  /** null: not there yet, or refused. */
  readonly comparison: Comparison | null;
}

/** Compares the measured photos that show the same window as the one in view, whenever a reading has changed. */
export function useComparison(bench: Bench, inView: PhotoOnBench): Compared {
  const [found, setFound] = useState<{ readonly key: string; readonly comparison: Comparison | null } | null>(null);
  const measured = bench.state.value.photos.filter(isMeasured);
  const { reading } = inView;
  const photos = reading ? measured.filter((photo) => showSameWindow(photo.reading, reading)) : [];
  const ids = photos.map(({ id }) => id);
  const used = photos.map(({ settings }) => settings.reference).find((id) => id !== null && ids.includes(id));
  const reference = used ?? null;
  // A reading is an object of its own each time it is measured; its photo's time on the engine tells it apart.
  const key = JSON.stringify([
    inView.id,
    reference,
    photos.map((photo) => [photo.id, photo.settings, photo.reading.timingMs]),
  ]);
  useEffect(() => {
    let isWanted = true;
    const compare = async (): Promise<void> => {
      const comparison = ids.length > 1 ? await bench.compare(ids, reference, inView.id) : null;
      if (isWanted) setFound({ key, comparison });
    };
    void compare();
    return () => {
      isWanted = false;
    };
  }, [bench, key]);
  const comparison = found?.key === key ? found.comparison : null;
  return { photos, reference, leftOut: measured.length - photos.length, comparison };
}
