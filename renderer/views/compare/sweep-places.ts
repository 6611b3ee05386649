import type { PhotoId } from '../../../core/contract/bench';

/** Millimetres that a file's name tells: `sweep-16-mm.jpg`, `left 4.5mm.jpg`; null: none, or several. */
export function placeInName(name: string): number | null {
  const found = [...name.matchAll(/(?<![\d.x×])(\d{1,3}(?:[.,]\d{1,2})?)[ _-]?mm\b/gi)];
  return found.length === 1 ? Number(found[0][1].replace(',', '.')) : null;
}

/** Where a lamp sat in each photo, mm: as the user wrote it, else as the names tell; left out: not known. */
export function placesOf(
  photos: readonly { readonly id: PhotoId; readonly name: string }[],
  written: Readonly<Record<PhotoId, number | null>>,
): ReadonlyMap<PhotoId, number> {
  const places = photos.flatMap(({ id, name }) => {
    const place = id in written ? written[id] : placeInName(name);
    return place === null ? [] : [[id, place] as const];
  });
  return new Map(places);
}
