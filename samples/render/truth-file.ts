import { planeView } from './camera/plane-view';
import type { Camera } from './camera/settings';
import type { PlacedWindow, Scene } from './front-panel';
import { printDrawing } from './print/window-print';
import type { Sample } from './sample-list';
import { trueFigures, type TrueFigures } from './truth/figures';
import { cellsOfLayers } from './truth/glow-cells';
import { withoutPrint } from './truth/print-cells';
import { redPrintFigures, type RedPrintFigures } from './truth/red-print';
import { hotSpots, type TrueSpot } from './truth/spots';
import { layersOf } from './window-scene';

export interface WindowTruth {
  readonly name: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly outline: PlacedWindow['window']['outline'];
  /** Top-left, top-right, bottom-right, bottom-left in upright photo pixels; the first pixel's centre is (0.5, 0.5). */
  readonly cornersPx: readonly (readonly [number, number])[];
  readonly tiltDeg: number;
  readonly light: string;
  /** Of the glow: what is printed, widened by 0.4 mm, does not count. */
  readonly figures: TrueFigures;
  /** Of the whole light, as if nothing were printed. */
  readonly unprintedFigures: TrueFigures;
  readonly redPrint: RedPrintFigures | null;
  readonly spots: readonly TrueSpot[];
}

export interface PhotoTruth {
  readonly format: 'evendial-truth';
  readonly version: 1;
  readonly madeBy: 'samples/render';
  readonly photo: Readonly<Record<string, unknown>>;
  readonly windows: readonly WindowTruth[];
}

function windowTruth(placed: PlacedWindow, camera: Camera): WindowTruth {
  const { window, leftMm, topMm } = placed;
  const { name, widthMm, heightMm, outline, light } = window;
  const view = planeView(camera.pose, camera.widthPx, camera.heightPx, camera.focalLength35Mm);
  const corners: [number, number][] = [
    [0, 0],
    [widthMm, 0],
    [widthMm, heightMm],
    [0, heightMm],
  ];
  const cells = cellsOfLayers(widthMm, heightMm, outline, layersOf(window));
  return {
    name,
    widthMm,
    heightMm,
    outline,
    cornersPx: corners.map(([x, y]) => view.toPhoto([leftMm + x, topMm + y])),
    tiltDeg: view.tiltDeg,
    light,
    figures: trueFigures(withoutPrint(cells, printDrawing(window.print))),
    unprintedFigures: trueFigures(cells),
    redPrint: window.print === 'none' ? null : redPrintFigures(window),
    spots: hotSpots(cells),
  };
}

/** What the engine should find in a photo. */
export function photoTruth(scene: Scene, camera: Camera): PhotoTruth {
  const { response } = camera;
  return {
    format: 'evendial-truth',
    version: 1,
    madeBy: 'samples/render',
    photo: {
      widthPx: camera.widthPx,
      heightPx: camera.heightPx,
      orientation: camera.orientation,
      response: response.kind,
      curveStrength: response.kind === 'contrasty' ? response.strength : 0,
      colour: camera.colour,
      colourSpace: camera.colourSpace,
      profile: camera.profile,
      exposure: { exposureS: camera.exposureS, fNumber: camera.fNumber, iso: camera.iso },
      noise: camera.noise,
      blurPx: camera.blurPx,
      veil: camera.veil,
      ...(camera.shading === undefined ? {} : { shading: camera.shading }),
      seed: camera.seed,
      pose: camera.pose,
      focalLength35Mm: camera.focalLength35Mm,
      roomLight: scene.roomLight,
    },
    // With its lamps off a window has no glow to be true about.
    windows: scene.windows.filter(({ window }) => window.lamps.length > 0).map((placed) => windowTruth(placed, camera)),
  };
}

/** The truth of a sample with its file's name and what its owner may state about the code values. */
export function statedTruth({ file, encoding, scene, camera }: Sample): PhotoTruth {
  const truth = photoTruth(scene, camera);
  return { ...truth, photo: { file, encoding, ...truth.photo } };
}

/** JSON with numbers of 6 significant digits, so that the last bit of a machine's arithmetic does not show. */
export function truthText(value: unknown): string {
  const rounded = (_key: string, one: unknown) =>
    typeof one === 'number' && !Number.isInteger(one) ? Number(one.toPrecision(6)) : one;
  return `${JSON.stringify(value, rounded, 1)}\n`;
}
