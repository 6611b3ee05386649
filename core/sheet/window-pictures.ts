import type { Rgb } from '../display/colour-scale';
import type { ScaleTick } from '../display/panels';
import type { SpotEntry } from '../contract/readings';
import { black, photoField, rectangle, thinLine, type DrawnItem, type DrawnPoint, type Drawing } from './drawing';
import { layOutPictures, type PictureLayout } from './picture-layout';
import { rulerBelow, scaleBar, scaleBarMm } from './rulers';
import { sheetWidthMm } from './sheet-content';
import { pictureName, sidesOf, sizeOf, type PictureKind, type ShownWindow, type Side } from './shown-window';

const white: Rgb = [255, 255, 255];

/** Numbered places of spots: a ring where it is too bright, a square where it is too dark. */
function spotMarks(spots: readonly SpotEntry[], at: DrawnPoint, scale: number): DrawnItem[] {
  return spots.flatMap(({ kind, xMm, yMm }, i): DrawnItem[] => {
    const [x, y] = [at[0] + xMm * scale, at[1] + yMm * scale];
    const [fill, ink] = kind === 'hot' ? [black, white] : [white, black];
    const mark: DrawnItem =
      kind === 'hot'
        ? { kind: 'ellipse', centre: [x, y], radii: [1.7, 1.7], fill, stroke: { colour: ink, widthMm: 0.2 } }
        : { kind: 'shape', points: rectangle(x - 1.5, y - 1.5, 3, 3), fill, stroke: thinLine };
    const text = String(i + 1);
    return [mark, { kind: 'text', at: [x, y + 0.95], text, sizePt: 7.5, align: 'centre', strong: true, colour: ink }];
  });
}

export interface PictureRow {
  readonly kind: PictureKind;
  /** What the drawing shows, for those who do not see it. */
  readonly title: string;
  readonly captions: Readonly<Record<Side, string>>;
  readonly scale?: { readonly colourAt: (share: number) => Rgb; readonly ticks: readonly ScaleTick[] };
}

/** Pictures on a grey field lie away from its edge by so much, mm. */
const fieldPadMm = 2;

function fieldUnder(layout: PictureLayout, topMm: number): DrawnItem {
  const height = layout.blockHeightMm + 2 * fieldPadMm;
  return { kind: 'shape', points: rectangle(0, topMm, sheetWidthMm, height), fill: photoField };
}

/**
 * A window before and after in one kind of picture: one scale in mm, one scale of colours, a ruler beneath.
 *
 * @returns null when there is no photo that could be measured
 * @rule RS3, RS4
 */
export function windowPictures(shown: ShownWindow, row: PictureRow): Drawing | null {
  const sides = sidesOf(shown);
  if (sides.length === 0) return null;
  const layout = layOutPictures(sizeOf(shown), sides.length);
  const isPhoto = row.kind === 'photo';
  const top = isPhoto ? fieldPadMm : 0;
  const items = sides.flatMap(({ side, measured }, i): DrawnItem[] => {
    const at: DrawnPoint = [layout.places[i][0], layout.places[i][1] + top];
    const isLast = i + 1 === sides.length;
    const { widthMm, heightMm, scale } = layout;
    return [
      { kind: 'text', at: [at[0], at[1] - 1.6], text: row.captions[side], sizePt: 8.5, strong: true },
      { kind: 'picture', picture: pictureName(shown.window.name, side, row.kind), at, widthMm, heightMm },
      ...(row.kind === 'luminance' ? spotMarks(measured.reading.spots, at, scale) : []),
      ...(isLast || !layout.isStacked
        ? rulerBelow([at[0], at[1] + heightMm], sizeOf(shown)[0], scale).map((item) => onField(item, isPhoto))
        : []),
    ];
  });
  const height = layout.blockHeightMm + 2 * top;
  const bar = row.scale ? scaleBar(height + 0.5, row.scale.colourAt, row.scale.ticks) : [];
  return {
    widthMm: sheetWidthMm,
    heightMm: height + (row.scale ? scaleBarMm : 0),
    title: row.title,
    items: [...(isPhoto ? [fieldUnder(layout, 0)] : []), ...items, ...bar],
  };
}

/** Grey ink would not be read on the grey field. */
function onField(item: DrawnItem, isField: boolean): DrawnItem {
  if (!isField) return item;
  if (item.kind === 'text') return { ...item, colour: black };
  return item.kind === 'line' ? { ...item, stroke: { ...item.stroke, colour: black } } : item;
}
