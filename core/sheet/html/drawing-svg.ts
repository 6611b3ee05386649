import type { Rgb } from '../../display/colour-scale';
import { black, type Drawing, type DrawnItem, type DrawnPoint, type Stroke } from '../drawing';
import { escaped } from './escape';

/** Pictures by their names as `data:` addresses. */
export type PictureAddresses = ReadonlyMap<string, string>;

const mmPerPt = 25.4 / 72;
const number = (value: number): string => String(Number(value.toFixed(3)));
const colour = (rgb: Rgb): string => `rgb(${rgb.join(',')})`;
const anchors = { left: 'start', centre: 'middle', right: 'end' } as const;

function strokeText(stroke: Stroke | undefined): string {
  if (!stroke) return '';
  const dash = stroke.dashMm ? ` stroke-dasharray="${stroke.dashMm.map(number).join(' ')}"` : '';
  return ` stroke="${colour(stroke.colour)}" stroke-width="${number(stroke.widthMm)}"${dash}`;
}

const pointsText = (points: readonly DrawnPoint[]): string =>
  points.map(([x, y]) => `${number(x)},${number(y)}`).join(' ');

function itemSvg(item: DrawnItem, pictures: PictureAddresses): string {
  switch (item.kind) {
    case 'line':
      return `<polyline points="${pointsText(item.points)}" fill="none"${strokeText(item.stroke)}/>`;
    case 'shape': {
      const fill = item.fill ? colour(item.fill) : 'none';
      return `<polygon points="${pointsText(item.points)}" fill="${fill}"${strokeText(item.stroke)}/>`;
    }
    case 'ellipse': {
      const [x, y] = item.centre.map(number);
      const [across, down] = item.radii.map(number);
      const fill = item.fill ? colour(item.fill) : 'none';
      return `<ellipse cx="${x}" cy="${y}" rx="${across}" ry="${down}" fill="${fill}"${strokeText(item.stroke)}/>`;
    }
    case 'text': {
      const { at, text, sizePt, align = 'left', strong } = item;
      const weight = strong ? ' font-weight="600"' : '';
      const place = `x="${number(at[0])}" y="${number(at[1])}" font-size="${number(sizePt * mmPerPt)}"`;
      const look = `text-anchor="${anchors[align]}" fill="${colour(item.colour ?? black)}"${weight}`;
      return `<text ${place} ${look}>${escaped(text)}</text>`;
    }
    case 'picture': {
      const address = pictures.get(item.picture);
      if (address === undefined) throw new Error(`the picture ${item.picture} was not handed over`);
      const [x, y, wide, high] = [...item.at, item.widthMm, item.heightMm].map(number);
      return `<image x="${x}" y="${y}" width="${wide}" height="${high}" preserveAspectRatio="none" href="${address}"/>`;
    }
  }
}

/** A drawing as SVG, its unit the mm of paper, so that it prints true to size. @rule RS3 */
export function drawingSvg({ widthMm, heightMm, title, items }: Drawing, pictures: PictureAddresses): string {
  const [wide, high] = [number(widthMm), number(heightMm)];
  const named = title === '' ? 'aria-hidden="true"' : `role="img" aria-label="${escaped(title)}"`;
  const drawn = items.map((item) => itemSvg(item, pictures)).join('');
  return `<svg ${named} width="${wide}mm" height="${high}mm" viewBox="0 0 ${wide} ${high}">${drawn}</svg>`;
}
