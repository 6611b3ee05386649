import type { Rgb } from '../display/colour-scale';
import { black, rectangle, type Drawing, type DrawnItem } from './drawing';
import type { MarkKind } from './sheet-content';

const sizeMm = 3.4;
const middle = sizeMm / 2;
const warnColour: Rgb = [125, 82, 0];
const refuseColour: Rgb = [163, 50, 15];

const items: Readonly<Record<MarkKind, readonly DrawnItem[]>> = {
  plain: [{ kind: 'ellipse', centre: [middle, middle], radii: [0.5, 0.5], fill: black }],
  note: [{ kind: 'ellipse', centre: [middle, middle], radii: [1.2, 1.2], stroke: { colour: black, widthMm: 0.25 } }],
  warn: [
    {
      kind: 'shape',
      points: [[middle, 0.3], [sizeMm - 0.3, sizeMm - 0.5], [0.3, sizeMm - 0.5]], // prettier-ignore
      stroke: { colour: warnColour, widthMm: 0.35 },
    },
  ],
  refuse: [
    { kind: 'shape', points: rectangle(0.4, 0.4, sizeMm - 0.8, sizeMm - 0.8), fill: refuseColour },
    { kind: 'shape', points: rectangle(0.9, middle - 0.25, sizeMm - 1.8, 0.5), fill: [255, 255, 255] },
  ],
};

const titles: Readonly<Record<MarkKind, string>> = { plain: '', note: 'note', warn: 'warning', refuse: 'refused' };

/** The mark before an item of a list: its form tells what it is, its colour only helps. @rule RS7 */
export function markDrawing(mark: MarkKind): Drawing {
  return { widthMm: sizeMm, heightMm: sizeMm, title: titles[mark], items: items[mark] };
}
