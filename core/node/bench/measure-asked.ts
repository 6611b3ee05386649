import path from 'node:path';
import { AppError } from '../../base/errors';
import type { Corners } from '../../base/points';
import type { MeasureAsked, PhotoAsked, PhotoId, WindowAsked } from '../../contract/bench';
import type { CarryRequest } from '../../contract/carry';
import type { MeasureJob, MeasureRequest, WindowInPhoto } from '../../contract/measure';
import { helperRefOf, photoRefOf, type PlacedPhoto } from './photo-registry';
import type { Sample } from './samples';

function windowOf(asked: WindowAsked): WindowInPhoto {
  const { cornersPx, sizeMm, shape, print, leaveOut, paintedRed, paintedDark } = asked;
  const corners = cornersPx && (cornersPx.map(([column, row]) => ({ column, row })) as unknown as Corners);
  return {
    spec: { name: 'window', shape: shape ?? { kind: 'rectangle' }, print, leaveOut, paintedRed, paintedDark },
    sizeMm,
    corners,
    isShapeStated: shape !== null,
  };
}

/** Finds a photo on the bench by its id. */
type FindPhoto = (id: PhotoId) => PlacedPhoto;

function jobOf(role: MeasureJob['role'], asked: PhotoAsked, find: FindPhoto): MeasureJob {
  const photo = find(asked.photo);
  const { lampOff, flatField, printPhoto } = asked.helpers;
  return {
    role,
    name: path.parse(photo.name).name,
    photo: photoRefOf(photo),
    light: asked.light,
    windows: [windowOf(asked.window)],
    ...(lampOff === null ? {} : { lampOff: helperRefOf(find(lampOff), photo) }),
    ...(flatField === null ? {} : { flatField: helperRefOf(find(flatField), photo) }),
    ...(printPhoto === null ? {} : { printPhoto: photoRefOf(find(printPhoto)) }),
  };
}

/**
 * The engine's request for one photo of the bench: what `measure` of the command line would ask.
 *
 * @throws AppError PHOTO_NOT_ON_BENCH
 */
export function requestOf(asked: MeasureAsked, find: FindPhoto): MeasureRequest {
  const trial = jobOf('trial', asked, find);
  const isReference = asked.reference === null || asked.reference.photo === asked.photo;
  return {
    jobs: isReference ? [trial] : [jobOf('reference', asked.reference, find), trial],
    ...(isReference ? {} : { isSeries: true }),
    room: asked.room,
    viewingDistanceMm: asked.viewingDistanceMm,
    withMaps: true,
  };
}

/** @throws AppError PHOTO_NOT_ON_BENCH, CORNERS_MISSING */
export function carryRequestOf(from: PhotoAsked, to: PhotoId, find: FindPhoto): CarryRequest {
  const window = windowOf(from.window);
  if (window.corners === null) {
    const message = 'The photo has no outline that could be carried over.';
    throw new AppError('usage', 'CORNERS_MISSING', message, 'Measure it first.');
  }
  const photo = photoRefOf(find(from.photo));
  return { from: { photo, window: { ...window, corners: window.corners } }, to: photoRefOf(find(to)) };
}

/** The engine's request for a photo as the reference of its unit, as `unit measure` would ask. @throws AppError PHOTO_NOT_ON_BENCH */
export function requestOfReference(asked: MeasureAsked, find: FindPhoto): MeasureRequest {
  const { room, viewingDistanceMm } = asked;
  return { jobs: [jobOf('reference', asked, find)], isSeries: true, room, viewingDistanceMm, withMaps: true };
}

/** A sample, searched and measured as a photo that was just dropped. */
export function requestOfSample({ offered, path: place }: Sample): MeasureRequest {
  const { name, light, room, sizeMm } = offered;
  const spec = {
    name: 'window',
    shape: { kind: 'rectangle' },
    print: 'auto',
    leaveOut: [],
    paintedRed: [],
    paintedDark: [],
  } as const;
  const windows = [{ spec, sizeMm, corners: null }];
  const photo = { file: name, path: place, encoding: 'profile', encodingStated: false, exposure: {} } as const;
  return { jobs: [{ role: 'trial', name, photo, light, windows }], room, viewingDistanceMm: 500, withMaps: true };
}
