import type { LinearPhoto } from '../base/linear-photo';
import { conversionOf, linearisePhoto } from '../photo/linearise';
import type { DecodedPhoto, PixelRegion } from '../photo/decoded-photo';
import { partOf } from '../photo/reduced';
import type { CameraResponse } from '../photo/response/camera-response';
import { mergePhotos } from '../photo/response/merge-photos';
import { recoverResponse, type RecoveredResponse } from '../photo/response/recover';
import { doubtfulSteps, unusableBracket, type Bracket } from './bracket-photos';
import { bracketShift } from './bracket-shift';
import type { WindowPlace } from './photo-in-light';

/** What became of an exposure series: merged, with what speaks against it, or refused with a clause that says why. */
export type BracketUse =
  | {
      readonly state: 'merged';
      readonly recovered: RecoveredResponse;
      /** Clauses; with any, the curve counts as doubted. */
      readonly doubts: readonly string[];
      readonly photoCount: number;
    }
  | { readonly state: 'refused'; readonly reason: string };

/** Photos left out of the fit are told worse than this only where something is amiss. @source our own choice, from drawn series */
const doubtfulError = 0.05;
/** Two ways of recovering one curve differ by less. @source our own choice, from drawn series (0.02 at most in steps of 1 to 2 EV) */
const doubtfulApart = 0.1;

const percent = (share: number): string => `${Number((100 * share).toPrecision(2))} %`;

function doubtsOf(bracket: Bracket, { leftOutError, apartFromLogResponse }: RecoveredResponse): string[] {
  const steps = doubtfulSteps(bracket);
  return [
    ...(steps === null ? [] : [steps]),
    ...(leftOutError > doubtfulError
      ? [`a photo left out is told by the others only to ${percent(leftOutError)}`]
      : []),
    ...(apartFromLogResponse !== null && apartFromLogResponse > doubtfulApart
      ? [`two ways of recovering the curve differ by ${percent(apartFromLogResponse)}`]
      : []),
  ];
}

/** A photo of the series, and by how many whole pixels its picture lies aside from the middle one's. */
interface Aligned {
  readonly decoded: DecodedPhoto;
  readonly relExposure: number;
  readonly columns: number;
  readonly rows: number;
}

/** The photos with their shifts; a clause when one moved too far. */
function aligned(bracket: Bracket, places: readonly WindowPlace[], region: PixelRegion): Aligned[] | string {
  const { rising, middle } = bracket;
  const lightOf = (decoded: DecodedPhoto): LinearPhoto => linearisePhoto(partOf(decoded, region), 'srgb', false);
  const first = lightOf(middle.decoded);
  const photos: Aligned[] = [];
  for (const { decoded, exposureS: relExposure } of rising) {
    const shifts =
      decoded === middle.decoded ? [] : places.map((place) => bracketShift(first, lightOf(decoded), place));
    const moved = shifts.find((shift) => typeof shift === 'string');
    if (moved !== undefined) return moved;
    // Windows of one unit move together: the first that has print tells.
    const shift = shifts.find((one) => typeof one !== 'string' && (one.columns !== 0 || one.rows !== 0));
    photos.push({ decoded, relExposure, columns: 0, rows: 0, ...(typeof shift === 'object' ? shift : {}) });
  }
  return photos;
}

/** The part of the region that every photo holds, at its own place. */
function commonRegion(photos: readonly Aligned[], { column, row, width, height }: PixelRegion): PixelRegion {
  let [left, top, right, bottom] = [column, row, column + width, row + height];
  for (const { decoded, columns, rows } of photos) {
    const { region } = decoded;
    left = Math.max(left, region.column - columns);
    top = Math.max(top, region.row - rows);
    right = Math.min(right, region.column + region.width - columns);
    bottom = Math.min(bottom, region.row + region.height - rows);
  }
  return { column: left, row: top, width: right - left, height: bottom - top };
}

/**
 * Recovers the camera's tone curve from an exposure series and merges its light; or says why that cannot be done.
 *
 * @param bracket   decoded; not altered
 * @param places    of the windows in the middle photo, by whose print the photos are registered
 * @param region    that shows them
 * @param reducedBy photo pixels along a side of a block that is averaged
 * @returns light in the unit of the middle photo (1 = its full scale), with the curve; null when refused
 * @source see `recoverResponse`, `mergePhotos`; what is doubted: our own choice
 * @rule BR6, BR7, BR8
 */
export function useBracket(
  bracket: Bracket,
  places: readonly WindowPlace[],
  region: PixelRegion,
  reducedBy: number,
): { readonly use: BracketUse; readonly merged: { linear: LinearPhoto; response: CameraResponse } | null } {
  const refused = (reason: string) => ({ use: { state: 'refused' as const, reason }, merged: null });
  const unusable = unusableBracket(bracket);
  if (unusable !== null) return refused(unusable);
  const photos = aligned(bracket, places, region);
  if (typeof photos === 'string') return refused(photos);
  const common = commonRegion(photos, region);
  const parts = photos.map(({ decoded, relExposure, columns, rows }) => ({
    part: partOf(decoded, { ...common, column: common.column + columns, row: common.row + rows }),
    relExposure,
  }));
  const { middle, rising } = bracket;
  const unit = parts[rising.indexOf(middle)];
  const { encoding } = middle.photo;
  const frames = parts.map(({ part, relExposure }) => ({ codes: part.codes!, relExposure }));
  const recovered = recoverResponse(frames, unit.part.region.width, conversionOf(unit.part, encoding).curves);
  if ('refused' in recovered) return refused(recovered.refused);
  const doubts = doubtsOf(bracket, recovered);
  const response = { ...recovered.response, isDoubted: doubts.length > 0 };
  return {
    use: { state: 'merged', recovered, doubts, photoCount: rising.length },
    merged: { linear: mergePhotos(parts, unit, encoding, response, reducedBy), response },
  };
}
