import type { Rgb } from '../display/colour-scale';

/** A place on a drawing: mm from its top left corner, x right, y down. */
export type DrawnPoint = readonly [xMm: number, yMm: number];

export interface Stroke {
  readonly colour: Rgb;
  readonly widthMm: number;
  /** Lengths of line and gap in turn, mm; left out: unbroken. */
  readonly dashMm?: readonly number[];
}

export interface DrawnLine {
  readonly kind: 'line';
  readonly points: readonly DrawnPoint[];
  readonly stroke: Stroke;
}

export interface DrawnShape {
  readonly kind: 'shape';
  readonly points: readonly DrawnPoint[];
  readonly fill?: Rgb;
  readonly stroke?: Stroke;
}

export interface DrawnEllipse {
  readonly kind: 'ellipse';
  readonly centre: DrawnPoint;
  readonly radii: readonly [acrossMm: number, downMm: number];
  readonly fill?: Rgb;
  readonly stroke?: Stroke;
}

export interface DrawnText {
  readonly kind: 'text';
  /** On the base line. */
  readonly at: DrawnPoint;
  readonly text: string;
  readonly sizePt: number;
  readonly align?: 'left' | 'centre' | 'right';
  readonly strong?: boolean;
  readonly colour?: Rgb;
}

/** A photo or map that is handed to the renderer beside the content. */
export interface DrawnPicture {
  readonly kind: 'picture';
  readonly picture: string;
  readonly at: DrawnPoint;
  readonly widthMm: number;
  readonly heightMm: number;
}

export type DrawnItem = DrawnLine | DrawnShape | DrawnEllipse | DrawnText | DrawnPicture;

/** A picture in mm of paper, of lines, letters and rasters, that every renderer draws alike. */
export interface Drawing {
  readonly widthMm: number;
  readonly heightMm: number;
  /** What it shows, for those who do not see it. */
  readonly title: string;
  readonly items: readonly DrawnItem[];
}

export const black: Rgb = [17, 17, 17];
export const quiet: Rgb = [85, 85, 85];
export const faint: Rgb = [200, 200, 200];
/** Field behind photos: beside white paper a glow looks dim and yellow. */
export const photoField: Rgb = [140, 140, 140];
/** This trial and the filament: told apart by their dashes too, so that a copy in grey still does. */
export const afterColour: Rgb = [0, 92, 77];
export const beforeColour: Rgb = [138, 84, 0];

export const thinLine: Stroke = { colour: black, widthMm: 0.18 };

export function rectangle(xMm: number, yMm: number, widthMm: number, heightMm: number): DrawnPoint[] {
  return [
    [xMm, yMm],
    [xMm + widthMm, yMm],
    [xMm + widthMm, yMm + heightMm],
    [xMm, yMm + heightMm],
  ];
}

const moved = ([x, y]: DrawnPoint, [dx, dy]: DrawnPoint): DrawnPoint => [x + dx, y + dy];

/** Items moved by so much, to be set beside others. */
export function shifted(items: readonly DrawnItem[], by: DrawnPoint): DrawnItem[] {
  return items.map((item): DrawnItem => {
    if (item.kind === 'ellipse') return { ...item, centre: moved(item.centre, by) };
    if (item.kind === 'text' || item.kind === 'picture') return { ...item, at: moved(item.at, by) };
    return { ...item, points: item.points.map((point) => moved(point, by)) };
  });
}
