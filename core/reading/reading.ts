import type { LinearPhoto } from '../base/linear-photo';
import type { Plane } from '../base/plane';
import type { ComparableFacts } from '../contract/comparable';
import type { Gate } from '../contract/gates';
import type { LocatedWindow, MeasureJob, MeasureRequest, PhotoRef, ReadingMaps } from '../contract/measure';
import type { OutlineEntry, PhotoEntry, Reading } from '../contract/readings';
import type { PhotoFacts } from '../photo/decoded-photo';
import { completeExposure, withStatedExposure } from '../photo/exposure-of';
import { ambientShare } from '../photo/lamp-off';
import type { BracketUse } from '../preparation/bracket-use';
import { luminancePlane } from '../preparation/luminance-plane';
import type { StoredResponseUse } from '../preparation/stored-response';
import { prepareWindow, type HelperPhotos, type PreparedWindow } from '../preparation/prepare-window';
import type { PrintMask } from '../window/rectified';
import type { CarriedPrint } from './carried-print';
import { cellNoise } from './cell-noise';
import { colourEntry } from './colour-entry';
import { findDarkRim, type DarkRim } from './dark-rim';
import { evennessEntry } from './evenness-entry';
import { bySeverity, refusalOf } from './gates/gate';
import { helperPhotoGates } from './gates/helper-photos';
import { raiseGates } from './gates/raise-gates';
import { bracketGates, storedResponseGates } from './gates/tone-curve';
import { mapPxPerMm, viewGlow, windowPxPerMm, type GlowView } from './glow-view';
import { glowMean } from './luminance';
import { luminanceEntry } from './luminance-entry';
import { checkPhoto } from './photo-checks';
import { placeWindow, type PlacedWindow } from './placed-window';
import { readingMaps } from './reading-maps';
import { redPrintEntry } from './red-print-entry';
import { findSpots, spotEntry } from './spots';
import { findLitSpots } from './spots-lit';
import type { UncertaintyBasis } from './uncertainty';

export interface ReadingInput {
  readonly job: MeasureJob;
  readonly window: LocatedWindow;
  readonly facts: PhotoFacts;
  readonly linear: LinearPhoto;
  /** The exposure series that `linear` was merged from, `job.photo` and `facts` those of its middle photo; left out: none. */
  readonly bracket?: {
    readonly use: BracketUse;
    /** In the order given. */
    readonly photos: readonly { readonly photo: PhotoRef; readonly facts: PhotoFacts }[];
  } | null;
  /** What became of a stored tone curve; left out: none. */
  readonly stored?: StoredResponseUse | null;
  /** Left out: none. */
  readonly helpers?: HelperPhotos;
  readonly request: Pick<MeasureRequest, 'room' | 'viewingDistanceMm' | 'withMaps'>;
  /** Print that another photo of the same window showed; left out or null: it is found in this one. */
  readonly carriedPrint?: CarriedPrint | null;
  /** The print photo that does not show the same print, as the user called it. */
  readonly unusedPrintPhoto?: string | null;
  /** Called when a stage is done, for timings only. */
  readonly onStage?: (stage: string) => void;
}

/** A glow with more of its cells than this outside the file's colour space is only "at least this saturated". */
const outOfGamutAbove = 0.05;

function photoEntry(photo: PhotoRef, facts: PhotoFacts, linear: LinearPhoto): PhotoEntry {
  return {
    file: photo.file,
    sha256: facts.sha256,
    widthPx: facts.widthPx,
    heightPx: facts.heightPx,
    bitDepth: facts.bitDepth,
    format: facts.format,
    colourSpace: linear.colourSpace,
    colourSpaceAssumed: linear.colourSpaceAssumed,
    encoding: photo.encoding,
    camera: withStatedExposure(facts.camera, photo.exposure),
  };
}

function cornersFrom({
  isCarriedOver,
  searchConfidence,
}: PlacedWindow): Pick<OutlineEntry, 'cornersFrom' | 'searchConfidence'> {
  if (isCarriedOver) return { cornersFrom: 'registration' };
  return searchConfidence === undefined ? { cornersFrom: 'given' } : { cornersFrom: 'search', searchConfidence };
}

function outlineEntry(placed: PlacedWindow, view: GlowView): OutlineEntry {
  const { spec } = placed;
  return {
    cornersPx: placed.corners.map(({ column, row }) => [column, row] as const),
    ...cornersFrom(placed),
    ...(placed.registrationMm === undefined ? {} : { registrationMm: placed.registrationMm }),
    widthMm: spec.widthMm,
    heightMm: spec.heightMm,
    sizeKnown: spec.sizeKnown,
    kind: spec.shape.kind,
    print: view.polarity ?? 'dark',
    pxPerMm: placed.pxPerMm,
    tiltDeg: placed.tiltDeg,
    glowShare: view.map.glowShare,
  };
}

/** How the light of one window came about. */
interface Prepared extends Omit<PreparedWindow, 'window'> {
  /** Room light over lamp light on the glow; null when no lamp-off photo was subtracted. */
  readonly ambientShare: number | null;
  /** How much of the frame the window takes, as far as the lens's corners matter: nothing once they are made good. */
  readonly viewShare: number;
}

function preparedOf({ lampOff, flatField }: PreparedWindow, placed: PlacedWindow, view: GlowView): Prepared {
  const share =
    lampOff?.state === 'subtracted' ? ambientShare(view.window, lampOff.room, lampOff.scale, view.glowFine) : null;
  const viewShare = flatField?.state === 'divided' ? 0 : placed.viewShare;
  return { lampOff, flatField, ambientShare: share, viewShare };
}

/** A frame that was taken for print. @rule GT8 */
function printedRim({ window, within }: GlowView): DarkRim {
  const light = luminancePlane(window);
  const seen = {
    ...within,
    values: within.values.map((inside, i) => (inside && Number.isFinite(light.values[i]) ? 1 : 0)),
  };
  return findDarkRim(light, seen, windowPxPerMm);
}

/** One photo alone may take shadows for print; null: there is no print. */
function maskTrust({ printMaskFrom }: GlowView): 'photo' | 'other' | null {
  if (printMaskFrom === 'none') return null;
  return printMaskFrom === 'photo' ? 'photo' : 'other';
}

function gatesOf(
  input: ReadingInput,
  placed: PlacedWindow,
  view: GlowView,
  prepared: Prepared,
  photo: PhotoEntry,
  noise: number,
): Gate[] {
  const { spec } = placed;
  const ofPhoto = raiseGates({
    ...view.facts,
    cellNoise: noise,
    glowShare: view.map.glowShare,
    glowCells: view.map.glow.values.reduce((sum, value) => sum + value, 0),
    pxPerMm: placed.pxPerMm,
    longSideMm: Math.max(spec.widthMm, spec.heightMm),
    sizeKnown: spec.sizeKnown,
    tiltDeg: placed.tiltDeg,
    viewShare: prepared.viewShare,
    aspectError: placed.aspectError,
    isSizeSwapped: placed.isSizeSwapped,
    searchConfidence: placed.searchConfidence ?? null,
    darkRim: findDarkRim(view.map.relLuminance, view.map.glow, mapPxPerMm, view.map.borderMm),
    printedRim: printedRim(view),
    checks: checkPhoto(view, placed, input.facts),
    isLinearJpeg: input.job.photo.encoding === 'linear' && input.facts.format === 'jpeg',
    exposureKnown: completeExposure(photo.camera) !== null,
    whiteBalance: photo.camera.whiteBalance,
    colourSpaceAssumed: photo.colourSpaceAssumed,
    room: input.request.room,
    ambientShare: prepared.ambientShare,
    isResponseKnown: input.linear.response !== 'unknown',
    printMaskFrom: maskTrust(view),
    polarity: view.polarity,
    notRegistered: placed.notRegistered ?? null,
    unusedPrintPhoto: input.unusedPrintPhoto ?? null,
  });
  const ofBracket = input.bracket ? bracketGates(input.bracket.use) : [];
  const ofStored = input.stored ? storedResponseGates(input.stored) : [];
  return bySeverity([...ofBracket, ...ofStored, ...helperPhotoGates(prepared), ...ofPhoto]);
}

/** The frame of a phone's sensor is five times or more smaller than that of 35 mm film; pocket cameras come close. */
const smallSensorFrom = 4.5;

/** A phone or pocket camera, by its focal length beside the equivalent one, or by the file kind that phones write. @rule UN2 */
function isSmallCamera({ format, focalLength35Mm, camera }: PhotoFacts): boolean {
  if (format === 'heic') return true;
  const { focalLengthMm } = camera;
  return Boolean(focalLength35Mm && focalLengthMm && focalLength35Mm / focalLengthMm >= smallSensorFrom);
}

function basisOf(
  input: ReadingInput,
  placed: PlacedWindow,
  view: GlowView,
  prepared: Prepared,
  noise: number,
): UncertaintyBasis {
  return {
    response: input.linear.response,
    isSmallCamera: isSmallCamera(input.facts),
    light: input.job.light,
    room: input.request.room,
    ambientShare: prepared.ambientShare,
    viewShare: prepared.viewShare,
    printMaskFrom: maskTrust(view),
    printShare: view.printShare,
    clippedShare: view.facts.greenClippedShare,
    cellNoise: noise,
    pxPerMm: placed.pxPerMm,
    whiteBalance: input.facts.camera.whiteBalance,
  };
}

const noHelpers: HelperPhotos = { lampOff: null, flatField: null };

/** Of two photos that could not be registered, corners set by hand put the same place this far apart. */
const byHandMm = 0.5;

/** Doubt of the window's place: with nothing to register to, the corners are taken as given. */
function placeDoubtMm({ registrationMm, notRegistered }: PlacedWindow): number {
  return registrationMm ?? (notRegistered === undefined ? 0 : byHandMm);
}

/** The spots, or why there is no list of them: an empty list with no reason means that none is to be seen. */
function spotsOf(
  view: GlowView,
  registrationMm: number,
  basis: UncertaintyBasis,
  residual: Plane | null,
  refusal: string | null,
): Pick<Reading, 'spots' | 'spotsReason'> {
  if (refusal !== null) return { spots: [], spotsReason: refusal };
  if (!residual) return { spots: [], spotsReason: 'spots are what is left of the unevenness, and that is refused' };
  const spots = view.polarity === 'light' ? findLitSpots(view.map, residual) : findSpots(view.map, residual);
  return { spots: spots.map((spot) => spotEntry(spot, registrationMm, basis)) };
}

export interface WindowReading {
  readonly reading: Omit<Reading, 'timingMs'>;
  readonly facts: ComparableFacts;
  readonly maps: ReadingMaps | null;
  /** What other photos of the window may take over: 10 cells a mm. */
  readonly print: PrintMask;
  readonly polarity: GlowView['polarity'];
}

/**
 * Reads one window of one photo: every figure that the photo can support, with its plus-minus, and every gate that it raises.
 *
 * A gate of level refuse makes every figure that it affects null, with the gate's message as the reason.
 *
 * @throws AppError of kind outline, for corners that cannot be
 * @rule RD7
 */
export function readWindow(input: ReadingInput): WindowReading {
  const { job, linear, facts, request, onStage } = input;
  const placed = placeWindow(input.window, facts);
  const photo = photoEntry(job.photo, facts, linear);
  const photos = input.bracket?.photos.map((one) => photoEntry(one.photo, one.facts, linear)) ?? [photo];
  const lit = { file: photo.file, sha256: facts.sha256, camera: photo.camera, linear };
  const straight = prepareWindow(lit, input.helpers ?? noHelpers, { ...placed, ...placed.spec }, windowPxPerMm);
  onStage?.('straighten');
  const view = viewGlow(straight.window, placed, input.carriedPrint ?? null, onStage);
  const prepared = preparedOf(straight, placed, view);
  const noise = cellNoise(view.map.relLuminance, view.map.glow, mapPxPerMm);
  const gates = gatesOf(input, placed, view, prepared, photo, noise);
  const refusal = (group: Parameters<typeof refusalOf>[1]): string | null =>
    refusalOf(gates, group)?.message.replace(/\.$/, '') ?? null;
  const basis = basisOf(input, placed, view, prepared, noise);
  const exposure = completeExposure(photo.camera);
  const { map } = view;
  const evenness = evennessEntry({
    map,
    basis,
    viewingDistanceMm: request.viewingDistanceMm,
    refusal: refusal('evenness'),
    isEllipse: placed.spec.shape.kind === 'ellipse',
    isLit: view.polarity === 'light',
  });
  onStage?.('evenness');
  const outOfGamut = view.facts.outsideGamutShare > outOfGamutAbove;
  const colour = colourEntry({ map, basis, refusal: refusal('colour'), outOfGamut });
  onStage?.('colour');
  const { viewingDistanceMm } = request;
  const redPrint = redPrintEntry({ view, basis, viewingDistanceMm, refusal: refusal('redPrint') });
  onStage?.('red print');
  const spots = spotsOf(view, placeDoubtMm(placed), basis, evenness.residual, refusal('spots'));
  onStage?.('spots');
  const reading = {
    name: job.name,
    window: placed.spec.name,
    photos,
    outline: outlineEntry(placed, view),
    gates: redPrint.gate ? bySeverity([...gates, redPrint.gate]) : gates,
    evenness: evenness.entry,
    ...spots,
    luminance: luminanceEntry({
      map,
      basis,
      exposure,
      refusal: refusal('luminance'),
      clippedShare: view.facts.clippedShare,
    }),
    colour: colour.entry,
    redPrint: redPrint.entry,
  };
  const maps = request.withMaps ? readingMaps(view, evenness.residual, exposure) : null;
  onStage?.('maps');
  const comparable: ComparableFacts = {
    camera: photo.camera,
    level: glowMean(map),
    basis,
    curveShift: colour.curveShift,
    redPrint: redPrint.facts,
  };
  return { reading, facts: comparable, maps, print: view.print, polarity: view.polarity };
}
