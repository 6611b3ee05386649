import type { ColourResponse } from './camera/colour-response';
import { uniform } from './camera/random';
import { gaussianBlur } from './blur';
import { fieldAt } from './light/field-map';
import { materialNames, reflectance, transmission } from './light/materials';
import { lights, times, type Xyz } from './light/spectra';
import type { InkPlane } from './print/strokes';
import { printPlanes, type PrintPlanes } from './print/window-print';
import { depthInside } from './truth/glow-cells';
import { type LightLayer, layersOf, type LitWindow } from './window-scene';

/** A front panel with its lit windows, in panel millimetres. */
export interface Scene {
  readonly windows: readonly PlacedWindow[];
  /** Luminance of a white paper on the panel under the room's light, in the unit of the lamps' light. */
  readonly roomLight: number;
  /** An evenly lit white sheet lies over the panel: a flat field. */
  readonly sheet?: boolean;
}

export interface PlacedWindow {
  readonly window: LitWindow;
  readonly leftMm: number;
  readonly topMm: number;
}

/** Linear light of the panel as the camera's channels see it. */
export interface PanelPicture {
  readonly leftMm: number;
  readonly topMm: number;
  readonly density: number;
  readonly width: number;
  readonly height: number;
  readonly channels: readonly [Float64Array, Float64Array, Float64Array];
}

export interface PanelBounds {
  readonly leftMm: number;
  readonly topMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

const bezelMm = 2.4;

/** A window with everything that is looked up for each sample of the picture. */
interface Prepared extends PlacedWindow {
  readonly layers: readonly LightLayer[];
  readonly print: PrintPlanes;
  /** Camera channels of a unit of each layer's light through each material. */
  readonly through: readonly (readonly Xyz[])[];
  /** Share of the scale that glows: a black dial throws little light on its surroundings. */
  readonly openShare: number;
}

function prepare(placed: PlacedWindow, response: ColourResponse, density: number): Prepared {
  const { window } = placed;
  const layers = layersOf(window);
  const print = printPlanes(window.print, window.widthMm, window.heightMm, density);
  const lit = print.lit?.values;
  return {
    ...placed,
    layers,
    print,
    openShare: lit ? lit.reduce((sum, share) => sum + share, 0) / lit.length : 1,
    through: layers.map(({ light }) => materialNames.map((name) => response(times(lights[light], transmission[name])))),
  };
}

/** Camera channels of a white paper, the bezel's paint and the materials under the room's light. */
function roomColours(response: ColourResponse, roomLight: number): { plain: Xyz; materials: readonly Xyz[] } {
  const scaled = (colour: Xyz): Xyz => [colour[0] * roomLight, colour[1] * roomLight, colour[2] * roomLight];
  return {
    plain: scaled(response(lights.room)),
    materials: materialNames.map((name) => scaled(response(times(lights.room, reflectance[name])))),
  };
}

/** Shares of unprinted scale, dark and red print at a place; the ink planes are sampled bilinearly. */
function inkAt(plane: InkPlane, xMm: number, yMm: number): number {
  const u = Math.min(Math.max(xMm * plane.density - 0.5, 0), plane.width - 1.001);
  const v = Math.min(Math.max(yMm * plane.density - 0.5, 0), plane.height - 1.001);
  const at = Math.floor(v) * plane.width + Math.floor(u);
  const [right, down] = [u - Math.floor(u), v - Math.floor(v)];
  const { values, width } = plane;
  return (
    (values[at] * (1 - right) + values[at + 1] * right) * (1 - down) +
    (values[at + width] * (1 - right) + values[at + width + 1] * right) * down
  );
}

/** How the bezel's slope around a window lies to the light: its lower side faces up to the viewer, its upper side away. */
function slopeFacing(window: LitWindow, xMm: number, yMm: number): number {
  const down =
    window.outline.kind === 'rectangle'
      ? Math.sign(Math.max(0, yMm - window.heightMm) + Math.min(0, yMm))
      : (yMm - window.heightMm / 2) / Math.hypot(xMm - window.widthMm / 2, yMm - window.heightMm / 2);
  return 1 + 0.45 * down;
}

/** The nearest place inside the window's bounding shape. */
function nearestInside(window: LitWindow, xMm: number, yMm: number): [number, number] {
  const { widthMm, heightMm, outline } = window;
  if (outline.kind === 'rectangle') {
    return [Math.min(Math.max(xMm, 0), widthMm), Math.min(Math.max(yMm, 0), heightMm)];
  }
  const [dx, dy] = [xMm - widthMm / 2, yMm - heightMm / 2];
  const shrink = Math.min(1, widthMm / 2 / Math.hypot(dx, dy));
  return [widthMm / 2 + dx * shrink, heightMm / 2 + dy * shrink];
}

/** A polished strip below the long windows mirrors their glow faintly; how far below a window it begins, mm. */
const stripBelowMm = 8;

function mirrored(window: LitWindow, xMm: number, yMm: number): number {
  const belowMm = yMm - window.heightMm - stripBelowMm;
  if (belowMm < 0 || window.outline.kind !== 'rectangle') return 0;
  const beside = Math.max(0, -xMm, xMm - window.widthMm);
  return 0.02 * Math.exp(-belowMm / 5 - beside / 2);
}

/** How far a place lies outside the hole in the panel, mm: a round window's cover belongs to the hole; negative on it. */
function beyondRim(window: LitWindow, xMm: number, yMm: number, awayMm: number): number {
  if (window.outline.kind === 'rectangle') return awayMm;
  return Math.hypot(xMm - window.widthMm / 2, yMm - window.heightMm / 2) - window.widthMm / 2;
}

/** Share of the window's light that reaches the viewer from the cover, the bezel or the panel at a place outside the glow. */
function spill(window: LitWindow, xMm: number, yMm: number, awayMm: number, rimMm: number): number {
  if (rimMm < 0) return 0.06 * Math.exp(-awayMm / 0.8) + 0.012 * Math.exp(-awayMm / 5);
  return spillBeside(window, xMm, yMm, rimMm, Math.exp(-Math.max(0, awayMm - rimMm - 1) / 4));
}

/** `seen` is the share of the glow that the place faces: less beside the cover of a meter. */
function spillBeside(window: LitWindow, xMm: number, yMm: number, beyondRimMm: number, seen: number): number {
  const panel = 0.022 * Math.exp(-beyondRimMm / 8) + 0.002 + mirrored(window, xMm, yMm);
  if (beyondRimMm > bezelMm) return panel;
  const facing = slopeFacing(window, xMm, yMm);
  const slope = 0.14 * Math.pow(1 - beyondRimMm / bezelMm, 1.6) * facing * seen;
  const rim = beyondRimMm > bezelMm - 0.4 ? 0.03 * facing : 0;
  return slope + rim + 0.25 * panel;
}

/** Draws the panel: glow and print inside the windows, bezels and the spilt light outside. */
export function panelPicture(
  scene: Scene,
  bounds: PanelBounds,
  density: number,
  response: ColourResponse,
): PanelPicture {
  const width = Math.ceil(bounds.widthMm * density);
  const height = Math.ceil(bounds.heightMm * density);
  const channels = [0, 1, 2].map(() => new Float64Array(width * height)) as [Float64Array, Float64Array, Float64Array];
  const windows = scene.windows.map((placed) => prepare(placed, response, density));
  const room = roomColours(response, scene.roomLight);
  const brushing = brushedRows(height);
  const colour: [number, number, number] = [0, 0, 0];
  for (let row = 0; row < height; row++) {
    const yMm = bounds.topMm + (row + 0.5) / density;
    for (let column = 0; column < width; column++) {
      const xMm = bounds.leftMm + (column + 0.5) / density;
      colour.fill(0);
      let outside = 1;
      let bezel = 0;
      for (const one of windows) {
        const [x, y] = [xMm - one.leftMm, yMm - one.topMm];
        const { window } = one;
        const depth = depthInside(window.outline, window.widthMm, window.heightMm, x, y);
        const share = Math.min(1, Math.max(0, depth * density + 0.5));
        if (share > 0) addGlow(colour, one, room.materials, x, y, share);
        if (share < 1) {
          const away = Math.max(0, -depth);
          const rim = beyondRim(window, x, y, away);
          const [nearX, nearY] = nearestInside(window, x, y);
          const caught =
            spill(window, x, y, away, rim) * one.openShare * (1 - share) * (rim > bezelMm ? brushing[row] : 1);
          one.layers.forEach((layer, i) => {
            const strength = fieldAt(layer.field, nearX, nearY) * caught;
            for (let k = 0; k < 3; k++) colour[k] += strength * one.through[i][0][k];
          });
          if (rim < bezelMm) bezel = 1;
        }
        outside *= 1 - share;
      }
      const paint = scene.sheet ? 1 : (bezel ? 0.05 : 0.5 * brushing[row]) * outside;
      for (let k = 0; k < 3; k++) channels[k][row * width + column] = colour[k] + paint * room.plain[k];
    }
  }
  return { leftMm: bounds.leftMm, topMm: bounds.topMm, density, width, height, channels };
}

function addGlow(
  colour: [number, number, number],
  one: Prepared,
  roomMaterials: readonly Xyz[],
  xMm: number,
  yMm: number,
  share: number,
): void {
  const red = inkAt(one.print.red, xMm, yMm);
  const dark = inkAt(one.print.dark, xMm, yMm) * (1 - red);
  const black = one.print.lit ? 1 - inkAt(one.print.lit, xMm, yMm) : 0;
  const shares = [(1 - red - dark) * (1 - black), dark * (1 - black), red * (1 - black), black];
  one.layers.forEach((layer, i) => {
    const strength = fieldAt(layer.field, xMm, yMm) * share;
    for (let k = 0; k < 3; k++) {
      const through = one.through[i];
      const ofMaterials =
        shares[0] * through[0][k] + shares[1] * through[1][k] + shares[2] * through[2][k] + shares[3] * through[3][k];
      colour[k] += strength * ofMaterials;
    }
  });
  for (let m = 0; m < shares.length; m++) {
    for (let k = 0; k < 3; k++) colour[k] += share * shares[m] * roomMaterials[m][k];
  }
}

/** Fine horizontal brushing of the metal, around 1. */
function brushedRows(rows: number): Float64Array {
  const next = uniform(7);
  const rough = Float64Array.from({ length: rows }, () => 2 * next() - 1);
  return gaussianBlur(rough, 1, rows, 1.2).map((value) => 1 + 0.22 * value);
}
