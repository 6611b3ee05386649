import { planeView } from './camera/plane-view';
import { isBlackDial } from './print/window-print';
import type { Sample } from './sample-list';

type Corners = Record<string, [number, number][]>;

/** Exact corners of the photo's windows, upright pixels. */
function cornersOf({ scene, camera }: Sample): Corners {
  const view = planeView(camera.pose, camera.widthPx, camera.heightPx, camera.focalLength35Mm);
  return Object.fromEntries(
    scene.windows.map(({ window, leftMm, topMm }) => {
      const { widthMm, heightMm } = window;
      const places: [number, number][] = [
        [0, 0],
        [widthMm, 0],
        [widthMm, heightMm],
        [0, heightMm],
      ];
      return [window.name, places.map(([x, y]) => [...view.toPhoto([leftMm + x, topMm + y])] as [number, number])];
    }),
  );
}

/** A photo as a series file names it: with its encoding where the owner knows it. */
export function photoOf({ file, encoding }: Sample): string | { file: string; encoding: string } {
  return encoding === null ? `photos/${file}` : { file: `photos/${file}`, encoding };
}

/**
 * What a trial and a reference say alike: photo, light and corners. The light is that of the window named, else of the first one
 * that is lit.
 */
export function shotOf(one: Sample, named?: string): { photos: unknown[]; light: string; corners: Corners } {
  const windows = one.scene.windows.map(({ window }) => window);
  const told = windows.find(({ name, lamps }) => (named === undefined ? lamps.length > 0 : name === named));
  return { photos: [photoOf(one)], light: (told ?? windows[0]).light, corners: cornersOf(one) };
}

/** The lamps behind the photo's windows, all on. */
export function lampsOf({ scene }: Sample): object[] {
  const lamps = scene.windows.flatMap(({ window }) => window.lamps);
  return lamps.map(({ light, xMm, yMm, zMm, tiltDeg }, i) => ({
    name: `${light} ${i + 1}`,
    positionMm: [xMm, yMm, zMm],
    tiltDeg: tiltDeg ?? [0, 0],
    on: true,
  }));
}

/** Everything of a series file before its reference and trials; the windows are those of a photo. */
export function seriesHead({ scene }: Sample, room: 'dark' | 'lit' = 'dark'): object {
  return {
    format: 'evendial-series',
    version: 1,
    viewingDistanceMm: 500,
    room,
    windows: scene.windows.map(({ window }) => ({
      name: window.name,
      widthMm: window.widthMm,
      heightMm: window.heightMm,
      outline: window.outline,
      print: isBlackDial(window.print) ? 'light' : 'dark',
    })),
  };
}
