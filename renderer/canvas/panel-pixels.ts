import type { Panel } from '../../core/display/panels';

export interface PanelPixels {
  /** A pixel a cell; transparent outside the outline. */
  readonly colours: ImageData;
  /** Opaque black where the cells are hatched. */
  readonly hatched: ImageData;
}

/**
 * The cells of a panel as pictures.
 *
 * @param every  take each n-th cell only; 1 = all
 */
export function panelPixels(panel: Panel, every = 1): PanelPixels {
  const width = Math.ceil(panel.width / every);
  const height = Math.ceil(panel.height / every);
  const colours = new ImageData(width, height);
  const hatched = new ImageData(width, height);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const cell = panel.cellAt(row * every * panel.width + column * every);
      if (cell === null) continue;
      const at = 4 * (row * width + column);
      const [red, green, blue] = cell.colour;
      colours.data[at] = red;
      colours.data[at + 1] = green;
      colours.data[at + 2] = blue;
      colours.data[at + 3] = 255;
      if (cell.hatched) hatched.data[at + 3] = 255;
    }
  }
  return { colours, hatched };
}
