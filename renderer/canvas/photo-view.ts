/** Where a photo lies on screen: CSS pixels per photo pixel, and where its top-left corner is. */
export interface PhotoView {
  readonly scale: number;
  readonly leftCss: number;
  readonly topCss: number;
}

interface Box {
  readonly width: number;
  readonly height: number;
}

/** The whole photo in the middle of its place. */
export function wholePhoto(photo: Box, place: Box): PhotoView {
  const scale = Math.min(place.width / photo.width, place.height / photo.height);
  return {
    scale,
    leftCss: (place.width - photo.width * scale) / 2,
    topCss: (place.height - photo.height * scale) / 2,
  };
}

/** A part of the photo, with some space round it, as large as it fits. */
export function partOfPhoto(points: readonly (readonly [number, number])[], place: Box): PhotoView {
  const columns = points.map(([column]) => column);
  const rows = points.map(([, row]) => row);
  const width = Math.max(...columns) - Math.min(...columns);
  const height = Math.max(...rows) - Math.min(...rows);
  const scale = Math.min(place.width / (1.35 * width), place.height / (1.6 * height), 8);
  const middle = [(Math.max(...columns) + Math.min(...columns)) / 2, (Math.max(...rows) + Math.min(...rows)) / 2];
  return { scale, leftCss: place.width / 2 - middle[0] * scale, topCss: place.height / 2 - middle[1] * scale };
}

export function cssOf(view: PhotoView, [column, row]: readonly [number, number]): readonly [number, number] {
  return [view.leftCss + column * view.scale, view.topCss + row * view.scale];
}

export function photoPlaceOf(view: PhotoView, xCss: number, yCss: number): readonly [number, number] {
  return [(xCss - view.leftCss) / view.scale, (yCss - view.topCss) / view.scale];
}

/** Enlarges about a place on screen that stays where it is. */
export function enlarged(view: PhotoView, xCss: number, yCss: number, factor: number): PhotoView {
  const scale = Math.min(16, Math.max(0.02, view.scale * factor));
  const change = scale / view.scale;
  return { scale, leftCss: xCss - (xCss - view.leftCss) * change, topCss: yCss - (yCss - view.topCss) * change };
}
