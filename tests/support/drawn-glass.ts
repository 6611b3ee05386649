import type { PlaneView, Point } from '../../samples/render/camera/plane-view';
import type { PanelPicture } from '../../samples/render/front-panel';
import { textStrokes } from '../../samples/render/print/glyphs';
import { InkPlane, type Stroke } from '../../samples/render/print/strokes';

export type Rgb = readonly [number, number, number];

/** A small lit window in a dark panel, drawn in a few milliseconds: without lamps, so its light is what is asked for. */
export interface Glass {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Light of the unprinted glass, linear RGB, in the unit that the camera's exposure is given for. */
  readonly light: (xMm: number, yMm: number) => Rgb;
  readonly print: 'dark and red' | 'dark' | 'none' | 'lit figures';
  /** Width of the red line; left out: 1 mm. */
  readonly redMm?: number;
  /** Light of the room that white paper sends back. */
  readonly room: number;
}

const isLit = ({ print }: Glass): boolean => print === 'lit figures';

/** Two rows of figures between lines, ticks, and a red line at 24 mm. */
function strokesOf(glass: Glass): { readonly dark: readonly Stroke[]; readonly red: readonly Stroke[] } {
  if (glass.print === 'none') return { dark: [], red: [] };
  const pen = isLit(glass) ? 0.75 : 0.4;
  const { widthMm } = glass;
  const strokes: Stroke[] = [{ width: pen, points: [[2, 8.2], [widthMm - 2, 8.2]] }]; // prettier-ignore
  for (let x = 3, mark = 0; x < widthMm - 1; x += 1.5, mark++) {
    strokes.push({ width: 0.8 * pen, points: [[x, 8.2], [x, mark % 4 ? 7.2 : 6.5]] }); // prettier-ignore
    if (mark % 4 === 0) strokes.push(...textStrokes(String(mark % 10), [x, 4], isLit(glass) ? 3.4 : 2.6, pen));
  }
  for (let x = 4, mark = 2; x < widthMm - 2; x += 5, mark += 2)
    strokes.push(...textStrokes(String(mark % 10), [x, 11], isLit(glass) ? 3 : 2, pen));
  const red: Stroke[] = glass.print === 'dark and red' ? [{ width: glass.redMm ?? 1, points: [[24, 1.8], [24, 12.4]] }] : []; // prettier-ignore
  return { dark: strokes, red };
}

function inkOf(strokes: readonly Stroke[], { widthMm, heightMm }: Glass, density: number): InkPlane {
  const plane = new InkPlane(widthMm, heightMm, density);
  strokes.forEach((stroke) => plane.draw(stroke));
  return plane;
}

/** What lets through and what sends back, channel by channel. */
const through = { red: [0.75, 0.05, 0.03], dark: [0.02, 0.02, 0.02] } as const;
const sentBack = { glass: 0.4, red: [0.5, 0.06, 0.06], dark: 0.05, bezel: 0.03, panel: 0.25 } as const;

/** Light of the glass, of the dark bezel 2 mm wide about it, and of the panel, at the corner of which the window begins. */
export function drawnPanel(glass: Glass, view: PlaneView, widthPx: number, heightPx: number): PanelPicture {
  const corners: Point[] = [[0, 0], [widthPx, 0], [widthPx, heightPx], [0, heightPx]]; // prettier-ignore
  const seen = corners.map(view.toPanel);
  const [xs, ys] = [seen.map(([x]) => x), seen.map(([, y]) => y)];
  const [leftMm, topMm] = [Math.floor(Math.min(...xs)) - 1, Math.floor(Math.min(...ys)) - 1];
  const density = 12;
  const width = (Math.ceil(Math.max(...xs)) + 1 - leftMm) * density;
  const height = (Math.ceil(Math.max(...ys)) + 1 - topMm) * density;
  const strokes = strokesOf(glass);
  const dark = inkOf(strokes.dark, glass, density);
  const red = inkOf(strokes.red, glass, density);
  const channels = [0, 1, 2].map(() => new Float64Array(width * height)) as [Float64Array, Float64Array, Float64Array];
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const [x, y] = [leftMm + (column + 0.5) / density, topMm + (row + 0.5) / density];
      const at = row * width + column;
      const away = Math.max(-x, x - glass.widthMm, -y, y - glass.heightMm);
      if (away >= 0) {
        const spilt = away < 2 ? 0 : 0.004 * glass.light(0, 0)[1];
        const paint = glass.room * (away < 2 ? sentBack.bezel : sentBack.panel);
        channels.forEach((channel) => (channel[at] = paint + spilt));
        continue;
      }
      const ink = Math.floor(y * density) * dark.width + Math.floor(x * density);
      const redShare = red.values[ink];
      const inked = dark.values[ink] * (1 - redShare);
      const darkShare = isLit(glass) ? 1 - inked : inked;
      const open = 1 - darkShare - redShare;
      const light = glass.light(x, y);
      channels.forEach((channel, k) => {
        const shown = open + through.red[k] * redShare + through.dark[k] * darkShare;
        const back = sentBack.glass * open + sentBack.red[k] * redShare + sentBack.dark * darkShare;
        channel[at] = light[k] * shown + glass.room * back;
      });
    }
  }
  return { leftMm, topMm, density, width, height, channels };
}
