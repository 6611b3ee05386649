import type { Drawing, DrawnPicture } from '../../core/sheet/drawing';
import type { SheetContent } from '../../core/sheet/sheet-content';

/** A picture of one white pixel, PNG. */
export const onePixel = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAIAAACQd1PeAAAADElEQVR4nGP4//8/AAX+Av4N70a4AAAAAElFTkSuQmCC',
  'base64',
);

/** Every drawing of a sheet that stands alone. */
export function drawingsOf(content: SheetContent): Drawing[] {
  return content.sections.flatMap(({ blocks }) =>
    blocks.flatMap((block) => (block.kind === 'drawing' ? [block.drawing] : [])),
  );
}

export const picturesIn = (drawing: Drawing): DrawnPicture[] =>
  drawing.items.filter((item): item is DrawnPicture => item.kind === 'picture');

/** One pixel for every picture that a sheet names. */
export function plainPictures(content: SheetContent): Map<string, Uint8Array> {
  return new Map(
    drawingsOf(content)
      .flatMap(picturesIn)
      .map(({ picture }) => [picture, onePixel]),
  );
}

/** Every text that a sheet shows, whatever block it stands in. */
export function textsOf(value: unknown, key = ''): string[] {
  if (typeof value === 'string') return ['kind', 'tone', 'align', 'mark', 'picture'].includes(key) ? [] : [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([inner, given]) => textsOf(given, Array.isArray(value) ? key : inner));
}

const titlesIn = (value: unknown): string[] => {
  if (typeof value !== 'object' || value === null) return [];
  const own = 'items' in value && 'title' in value && 'heightMm' in value ? [String(value.title)] : [];
  return [...own, ...Object.values(value).flatMap(titlesIn)];
};

/** What drawings are called, those in tables too. */
export const drawingTitles = (content: SheetContent): string[] => titlesIn(content);
