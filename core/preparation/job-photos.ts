import { AppError } from '../base/errors';
import type { PhotoPoint } from '../base/points';
import type { MeasuredWindow, MeasureJob, PhotoRef } from '../contract/measure';
import type { CameraFacts } from '../contract/readings';
import type { DecodedPhoto, PixelRegion } from '../photo/decoded-photo';
import { linearisePhoto } from '../photo/linearise';
import { partOf } from '../photo/reduced';
import type { CameraResponse } from '../photo/response/camera-response';
import { bracketOf, perhapsBracketOf, type Bracket } from './bracket-photos';
import { flatFieldOf, type FlatField } from './flat-field';
import type { PhotoInLight } from './photo-in-light';
import type { HelperPhotos } from './prepare-window';
import { measureWitness } from './witness';

/** See `EnginePorts`. */
type DecodePhoto = (path: string, request: { regionPx: PixelRegion | null }) => Promise<DecodedPhoto>;

/** Pixels around the corners that rectifying may touch, blocks that are dropped at the end of the region included. */
const marginPx = 12;
/** A lamp-off photo may lie 0.3 mm aside, and a series moves corners by up to 1.5 mm: of windows that are 30 mm long or more. */
const shiftedShare = 0.05;

/** The part of the photo that holds these points with pixels to spare; the decoder cuts it to the photo. @rule CP6 */
export function regionOf(corners: readonly PhotoPoint[], sparePx = marginPx): PixelRegion {
  const columns = corners.map((corner) => corner.column);
  const rows = corners.map((corner) => corner.row);
  const column = Math.floor(Math.min(...columns)) - sparePx;
  const row = Math.floor(Math.min(...rows)) - sparePx;
  const width = Math.ceil(Math.max(...columns)) + sparePx - column;
  const height = Math.ceil(Math.max(...rows)) + sparePx - row;
  return { column, row, width, height };
}

/** A little more, where the window may be moved in the photo. @rule CP6 */
export function roomyRegion(corners: readonly PhotoPoint[]): PixelRegion {
  const { width, height } = regionOf(corners, 0);
  return regionOf(corners, marginPx + Math.ceil(shiftedShare * Math.max(width, height)));
}

/** All corners of a job's windows; null when one has to be searched for, for which the whole photo is needed. */
function knownCorners(job: MeasureJob): PhotoPoint[] | null {
  const corners = job.windows.map((window) => window.corners);
  return corners.includes(null) ? null : corners.flatMap((four) => four ?? []);
}

/** A job's photos as its port decodes them. */
export interface DecodedJob {
  /** Of an exposure series the middle one. */
  readonly lit: DecodedPhoto;
  readonly bracket: Bracket | null;
  readonly lampOff: DecodedPhoto | null;
  readonly flatField: FlatField | null;
}

/** The job with the photo that is decoded as `lit`. */
export function litJob(job: MeasureJob, { bracket }: DecodedJob): MeasureJob {
  return bracket ? { ...job, photo: bracket.middle.photo } : job;
}

/** Says which photo of a job it is that cannot be read. */
function decodeHelper(
  decodePhoto: DecodePhoto,
  role: string,
  photo: PhotoRef,
  regionPx: PixelRegion | null,
): Promise<DecodedPhoto> {
  return decodePhoto(photo.path, { regionPx }).catch((error: unknown) => {
    if (!(error instanceof AppError) || error.kind !== 'photo') throw error;
    throw new AppError('photo', error.code, `The ${role} (${photo.file}): ${error.message}`, error.remedy);
  });
}

/**
 * Decodes the photos of a job. A flat field serves a whole series: it is decoded once.
 *
 * @param isSeries corners may be moved to where the series' print lies
 * @throws AppError of kind photo, which tells which of the photos cannot be read
 * @rule CP6
 */
export function jobDecoder(decodePhoto: DecodePhoto, isSeries = false): (job: MeasureJob) => Promise<DecodedJob> {
  const flatFields = new Map<string, Promise<FlatField>>();
  const shared = (job: MeasureJob, photo: PhotoRef): Promise<FlatField> => {
    const key = JSON.stringify([photo, job.photo.exposure]);
    const decoding =
      flatFields.get(key) ??
      decodeHelper(decodePhoto, 'flat field', photo, null).then((whole) => flatFieldFrom(job, photo, whole));
    flatFields.set(key, decoding);
    return decoding;
  };
  return async (job) => {
    const corners = knownCorners(job);
    const shown = corners && [...corners, ...(job.witnessPx ?? [])];
    const regionPx = shown && (isSeries || job.bracket ? roomyRegion : regionOf)(shown);
    const photos = job.bracket ?? [job.photo];
    const decoding = photos.map(async (photo) => ({
      photo,
      decoded: await (job.bracket
        ? decodeHelper(decodePhoto, 'exposure series', photo, regionPx)
        : decodePhoto(photo.path, { regionPx })),
    }));
    const [decoded, lampOff, flatField] = await Promise.all([
      Promise.all(decoding),
      job.lampOff ? decodeHelper(decodePhoto, 'lamp-off photo', job.lampOff, corners && roomyRegion(corners)) : null,
      job.flatField ? shared(job, job.flatField) : null,
    ]);
    const bracketed = job.isPerhapsBracket ? perhapsBracketOf : bracketOf;
    const bracket = job.bracket ? bracketed(job, decoded) : null;
    const lit = bracket?.middle ?? decoded.find(({ photo }) => photo.path === job.photo.path) ?? decoded[0];
    return { lit: lit.decoded, bracket, lampOff, flatField };
  };
}

/**
 * The helper photos of a job in linear light.
 *
 * @param corners    of all its windows
 * @param reduction  photo pixels along a side of a block that is averaged, as for the lit photo
 * @param response   of the camera, as for the lit photo
 * @rule CP6
 */
export function helpersOf(
  job: MeasureJob,
  { lampOff, flatField }: DecodedJob,
  corners: readonly PhotoPoint[],
  reduction: number,
  response: CameraResponse | null = null,
): HelperPhotos {
  if (!job.lampOff || !lampOff) return { lampOff: null, flatField };
  const part = partOf(lampOff, roomyRegion(corners));
  return { lampOff: lampOffInLight(job, job.lampOff, part, reduction, response), flatField };
}

/** The patch of a job that did not change, or why it cannot be measured. @rule CP4 */
export function witnessOf(
  { photo, witnessPx }: MeasureJob,
  { lit }: DecodedJob,
  response: CameraResponse | null = null,
): Pick<MeasuredWindow, 'witness'> {
  if (!witnessPx) return {};
  const patch = measureWitness(
    linearisePhoto(partOf(lit, regionOf(witnessPx)), photo.encoding, photo.encodingStated, 1, response),
    witnessPx,
  );
  return { witness: typeof patch === 'string' ? { reason: patch } : patch };
}

/** The helper's notes: what was stated for it, else what its file says, else what was stated for the lit photo. */
function cameraOf(job: MeasureJob, helper: PhotoRef, { facts }: DecodedPhoto): CameraFacts {
  return { ...job.photo.exposure, ...facts.camera, ...helper.exposure };
}

/** The lamp-off photo of a job in linear light. @param part of it that shows the windows @rule CP6 */
function lampOffInLight(
  job: MeasureJob,
  helper: PhotoRef,
  part: DecodedPhoto,
  reduction: number,
  response: CameraResponse | null,
): PhotoInLight {
  return {
    file: helper.file,
    sha256: part.facts.sha256,
    camera: cameraOf(job, helper, part),
    linear: linearisePhoto(part, helper.encoding, helper.encodingStated, reduction, response),
  };
}

/** The lens's share of light, from the flat field of a job. @param whole the whole photo @rule CP6 */
function flatFieldFrom(job: MeasureJob, helper: PhotoRef, whole: DecodedPhoto): FlatField {
  return flatFieldOf(whole, helper.file, cameraOf(job, helper, whole), helper.encoding);
}
