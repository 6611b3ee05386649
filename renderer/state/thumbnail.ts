import type { MappedWindow } from '../../core/contract/measure';
import { windowPanel } from '../../core/display/panels';
import { panelPixels } from '../canvas/panel-pixels';

/** Longer side of a thumbnail's picture. */
const sidePx = 374;

/** The straightened window, small, for the stack. */
export function thumbnailOf(entry: MappedWindow): ImageData {
  const panel = windowPanel(entry);
  const every = Math.max(1, Math.ceil(Math.max(panel.width, panel.height) / sidePx));
  return panelPixels(panel, every).colours;
}
