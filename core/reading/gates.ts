import type { FigureGroup, Gate, GateCode, GateLevel } from '../contract/gates';
import type { RoomKind } from '../contract/light';
import type { DarkRim } from './dark-rim';
import type { PhotoChecks } from './photo-checks';

/** What one photo of one window shows, as far as the gates ask for it. Shares are 0..1 of the glow unless said otherwise. */
export interface GateFacts {
  readonly redClippedShare: number;
  readonly greenClippedShare: number;
  readonly blueClippedShare: number;
  /** Glow whose sRGB-encoded luminance lies under code 8 of 255. */
  readonly nearBlackShare: number;
  /** Median linear luminance of the glow, 1 = full scale. */
  readonly medianRelLuminance: number;
  /** Standard deviation of ln L from cell to cell (0.25 mm), slow changes removed. */
  readonly cellNoise: number;
  /** Photo pixels a mm along the shorter-scaled axis. */
  readonly pxPerMm: number;
  /** Glow over the area inside the outline without its border. */
  readonly glowShare: number;
  readonly glowCells: number;
  readonly longSideMm: number;
  readonly sizeKnown: boolean;
  readonly tiltDeg: number;
  /** Longer side of the window in the photo over the longer side of the frame. */
  readonly viewShare: number;
  /** |side ratio from the corners / stated side ratio - 1|; null when the size is not known. */
  readonly aspectError: number | null;
  /** The stated size fits when width and height are exchanged. */
  readonly isSizeSwapped: boolean;
  /** Of the search that placed the corners; null when they were given. */
  readonly searchConfidence: number | null;
  readonly darkRim: DarkRim;
  /** The user says that the codes are light, of a file that a camera has put through a curve. */
  readonly isLinearJpeg: boolean;
  readonly checks: PhotoChecks;
  readonly exposureKnown: boolean;
  readonly whiteBalance: 'manual' | 'auto' | 'unknown';
  readonly colourSpaceAssumed: boolean;
  readonly outsideGamutShare: number;
  readonly room: RoomKind;
  /** Room light over lamp light on the glow, from a lamp-off photo; null without one. */
  readonly ambientShare: number | null;
  /** Where the print mask came from; null when there is no print. */
  readonly printMaskFrom: 'photo' | 'other' | null;
  /** What the print was taken for; null when that could not be decided. */
  readonly polarity: 'dark' | 'none' | 'light' | null;
}

const everything: readonly FigureGroup[] = ['evenness', 'spots', 'luminance', 'colour', 'redPrint'];
const shape: readonly FigureGroup[] = ['evenness', 'spots', 'redPrint'];

const percent = (share: number): string => `${Number((100 * share).toPrecision(2))} %`;

function gate(
  code: GateCode,
  level: GateLevel,
  value: number | null,
  affects: readonly FigureGroup[],
  message: string,
  remedy: string,
): Gate {
  return { code, level, message, remedy, value, affects };
}

/** Green clipped over this share of the glow: no evenness. METRICS 1.9. */
const mostGreenClipped = 0.02;
/** A channel clipped over this share of the glow: its figures are doubtful. */
const clippedWorthSaying = 0.005;

/**
 * Whether evenness is to be taken from the green channel: red or blue is clipped while green still holds.
 *
 * @source our own choice after an experiment: with 16 % of red clipped the score from luminance was 58 for 50, from green 50
 * @rule GT2
 */
export function evennessFromGreen(
  facts: Pick<GateFacts, 'redClippedShare' | 'greenClippedShare' | 'blueClippedShare'>,
): boolean {
  const otherClipped = facts.redClippedShare > clippedWorthSaying || facts.blueClippedShare > clippedWorthSaying;
  return otherClipped && facts.greenClippedShare <= mostGreenClipped;
}

function clippingGates(facts: GateFacts): Gate[] {
  const green = facts.greenClippedShare;
  if (green > mostGreenClipped) {
    return [
      gate(
        'PHOTO_CLIPPED',
        'refuse',
        green,
        everything,
        `Too bright: ${percent(green)} of the glow is cut off at the top of the scale, and hot spots with it.`,
        'Halve the exposure until the brightest spot is at code 200-235, and photograph again.',
      ),
    ];
  }
  const raised: Gate[] = [];
  if (green > clippedWorthSaying) {
    raised.push(
      gate(
        'PHOTO_CLIPPED',
        'warn',
        green,
        everything,
        `A little too bright: ${percent(green)} of the glow is cut off at the top of the scale.`,
        'Expose one step less, with the brightest spot at code 200-235.',
      ),
    );
  }
  const channels = [
    ['RED_CLIPPED', 'Red', facts.redClippedShare],
    ['BLUE_CLIPPED', 'Blue', facts.blueClippedShare],
  ] as const;
  for (const [code, name, share] of channels) {
    if (share <= clippedWorthSaying) continue;
    raised.push(
      gate(
        code,
        'refuse',
        share,
        ['colour', 'redPrint'],
        `${name} is clipped on ${percent(share)} of the glow: evenness is taken from green; no colour, no red print.`,
        `Expose so that the brightest spot of the brightest channel is at code 200-235, and keep that for the whole series.`,
      ),
    );
  }
  return raised;
}

function darknessGates(facts: GateFacts): Gate[] {
  // Without glow there is nothing that could be dark: the size gate speaks.
  if (facts.glowCells === 0) return [];
  const remedy = 'Raise the exposure (longer time, tripod) until the brightest spot is at code 200-235.';
  if (facts.medianRelLuminance < 0.01) {
    const level = percent(facts.medianRelLuminance);
    const message = `Too dark: the middle of the glow reaches only ${level} of full scale.`;
    return [gate('PHOTO_TOO_DARK', 'refuse', facts.medianRelLuminance, everything, message, remedy)];
  }
  if (facts.nearBlackShare <= 0.05) return [];
  const message = `Dark: ${percent(facts.nearBlackShare)} of the glow is nearly black.`;
  return [gate('PHOTO_TOO_DARK', 'warn', facts.nearBlackShare, everything, message, remedy)];
}

function noiseGates(facts: GateFacts): Gate[] {
  if (facts.cellNoise <= 0.05) return [];
  const level = facts.cellNoise > 0.2 ? 'refuse' : 'warn';
  const message = `Noisy: neighbouring places differ by ${percent(facts.cellNoise)}.`;
  return [gate('PHOTO_NOISY', level, facts.cellNoise, shape, message, 'Use a lower ISO and a tripod.')];
}

/** A search that is less sure may have found something else than a lit window. */
const sureFrom = 0.5;

/** More of the outline than this behind a dark gap is no bezel's shadow. */
const mostDarkRim = 0.04;

/** Fewer cells (of 0.25 mm) than these have no mean worth giving. */
const leastCells = 64;
/** Lit figures are few and narrow: so many of their cells are needed for a verdict on evenness. */
const leastLitCells = 200;

function sharpnessGates({ checks: { edgeMm, edgePx } }: GateFacts): Gate[] {
  if (edgeMm === null || edgePx === null) return [];
  const message = `Not sharp: the edges of the print are ${Number(edgeMm.toPrecision(2))} mm wide.`;
  const remedy = 'Use a tripod and the self-timer, focus on the print, and photograph again.';
  if (edgeMm > 1.5) return [gate('PHOTO_NOT_SHARP', 'refuse', edgeMm, shape, message, remedy)];
  // Coarse photos have their own gate, and close-ups wide edges in pixels: both measures must agree.
  const isSoft = (edgeMm > 0.5 && edgePx > 2.5) || (edgePx > 4 && edgeMm > 0.3);
  return isSoft ? [gate('PHOTO_NOT_SHARP', 'warn', edgeMm, ['redPrint', 'spots'], message, remedy)] : [];
}

function lightGates({ checks }: GateFacts): Gate[] {
  const raised: Gate[] = [];
  const stripes = checks.stripesPeakToPeak;
  if (stripes !== null && stripes > 0.01) {
    const level = stripes > 0.04 ? 'refuse' : 'warn';
    const affects: readonly FigureGroup[] = level === 'refuse' ? [...shape, 'luminance'] : ['evenness', 'spots'];
    const message = `Stripes of ${percent(stripes)} run across the glow: the lamps flicker.`;
    const remedy = 'Expose for 1/10 s or 1/5 s, or feed the lamps with direct current.';
    raised.push(gate('BANDING', level, stripes, affects, message, remedy));
  }
  if (checks.reflection) {
    const { largest, share } = checks.reflection;
    const place = `${Math.round(largest.atMm.xMm)}, ${Math.round(largest.atMm.yMm)} mm`;
    const message = `Something seems to be reflected in the pane, at ${place}: a cool patch with a sharp edge.`;
    const remedy = 'Hang a dark cloth behind the camera, take the pane off, or leave the patch out.';
    raised.push(gate('REFLECTION', 'warn', share, shape, message, remedy));
  }
  if (checks.toneHints.length > 0) {
    const level = checks.isToneMapped ? 'refuse' : 'warn';
    const affects: readonly FigureGroup[] = [...shape, 'luminance'];
    const message = `The photo's notes speak of ${checks.toneHints.join(', ')}: light may have been changed place by place.`;
    const remedy = 'Switch HDR, night and portrait modes and filters off, and photograph again.';
    raised.push(gate('TONE_MAPPED', level, null, affects, message, remedy));
  }
  return raised;
}

function sizeGates(facts: GateFacts): Gate[] {
  const raised: Gate[] = [];
  if (facts.pxPerMm < 6) {
    const level = facts.pxPerMm < 3 ? 'refuse' : 'warn';
    const affects: readonly FigureGroup[] = level === 'refuse' ? shape : ['redPrint', 'spots'];
    const message = `The window is small in the photo: ${Number(facts.pxPerMm.toPrecision(2))} pixels a mm.`;
    raised.push(gate('RESOLUTION_LOW', level, facts.pxPerMm, affects, message, 'Go closer or use the longer lens.'));
  }
  const isLit = facts.polarity === 'light';
  const tooLittle = isLit ? facts.glowCells < leastLitCells : facts.glowShare < 0.3;
  if (tooLittle || facts.glowCells < leastCells || facts.longSideMm < 8) {
    const affects = facts.glowCells < leastCells ? everything : shape;
    const message =
      facts.longSideMm < 8
        ? `The window is only ${Number(facts.longSideMm.toPrecision(2))} mm long.`
        : isLit
          ? `The lit figures cover only ${facts.glowCells} cells of 0.25 mm.`
          : `Only ${percent(facts.glowShare)} of the window is free of print.`;
    const remedy =
      'Check the outline, the size and the kind of print; windows this small are compared by eye or with their neighbour.';
    raised.push(gate('GLOW_TOO_SMALL', 'refuse', facts.glowShare, affects, message, remedy));
  }
  if (!facts.sizeKnown) {
    const message = 'The size of the window was not given: 60 mm wide is assumed, and all lengths are relative.';
    raised.push(
      gate('SIZE_ASSUMED', 'note', null, ['spots'], message, 'Measure the window with a caliper and give its size.'),
    );
  }
  return raised;
}

function viewGates(facts: GateFacts): Gate[] {
  const raised: Gate[] = [];
  if (facts.tiltDeg > 35) {
    const level = facts.tiltDeg > 55 ? 'refuse' : 'warn';
    const message = `The window is seen from the side, ${Math.round(facts.tiltDeg)} degrees off the straight view.`;
    raised.push(gate('TILTED', level, facts.tiltDeg, shape, message, 'Stand straight in front of the window.'));
  }
  if (facts.viewShare > 0.6) {
    const message = `The window fills ${percent(facts.viewShare)} of the photo's longer side: dark corners of the lens may count as dark ends.`;
    const remedy = 'Step back, or zoom out, until the window fills less than 40 % of it.';
    raised.push(gate('WINDOW_TOO_WIDE', 'warn', facts.viewShare, ['evenness'], message, remedy));
  }
  if (facts.checks.frameDistancePx <= 1) {
    const level = facts.checks.frameDistancePx <= -1 ? 'refuse' : 'warn';
    const message = 'The window touches the edge of the photo: a part of it may be missing.';
    const remedy = 'Step back until the whole window and some of the front around it are in the photo.';
    raised.push(gate('WINDOW_CUT', level, facts.checks.frameDistancePx, shape, message, remedy));
  }
  if (facts.aspectError !== null && facts.aspectError > 0.08) {
    const message = facts.isSizeSwapped
      ? 'The size looks swapped: the corners show a window that is as wide as the stated height.'
      : `The corners give another shape than the stated size, by ${percent(facts.aspectError)}.`;
    const remedy = facts.isSizeSwapped
      ? 'State the width first, then the height: 92x18 for a long scale.'
      : 'Check the corners and the width and height in mm.';
    raised.push(gate('ASPECT_DIFFERS', 'warn', facts.aspectError, ['evenness', 'spots'], message, remedy));
  }
  if (facts.searchConfidence !== null && facts.searchConfidence < sureFrom) {
    const message = `The outline was found by the search, and it is not sure of it (${facts.searchConfidence.toFixed(2)} of 1).`;
    const remedy = 'Look at the picture of the window; give the corners if they are not those of the lit part.';
    raised.push(gate('OUTLINE_UNSURE', 'warn', facts.searchConfidence, everything, message, remedy));
  }
  if (facts.darkRim.share > mostDarkRim && (facts.polarity === 'dark' || facts.polarity === 'none')) {
    const { share, widthMm } = facts.darkRim;
    const message = `The light stops ${Number(widthMm.toPrecision(2))} mm inside the outline on ${percent(share)} of its length.`;
    const remedy = 'Move the corners from the frame onto the lit part; cut off or leave out a part that is covered.';
    const affects: readonly FigureGroup[] = [...shape, 'luminance'];
    raised.push(gate('OUTLINE_ON_FRAME', 'refuse', share, affects, message, remedy));
  }
  return raised;
}

function cameraGates(facts: GateFacts): Gate[] {
  const raised: Gate[] = [];
  if (!facts.exposureKnown) {
    const message = 'The photo does not say its exposure time, f-number and ISO: brightness cannot be compared.';
    const remedy = 'Load the original file, or state the exposure.';
    raised.push(gate('EXPOSURE_UNKNOWN', 'warn', null, ['luminance'], message, remedy));
  }
  if (facts.whiteBalance !== 'manual') {
    const seen = facts.whiteBalance === 'auto' ? 'was automatic' : 'is not known';
    const message = `The white balance ${seen}: colours of different photos cannot be compared.`;
    const remedy = 'Set a fixed white balance (daylight) and keep it for the whole series.';
    raised.push(gate('WHITE_BALANCE_AUTO', 'warn', null, ['colour'], message, remedy));
  }
  if (facts.colourSpaceAssumed) {
    const message = 'The photo names no colour space: sRGB is assumed.';
    const remedy = 'Load the original file as the camera wrote it, or export with a colour profile.';
    raised.push(gate('PROFILE_MISSING', 'warn', null, ['colour'], message, remedy));
  }
  if (facts.isLinearJpeg) {
    const message = 'The photo is stated to be linear, but it is a JPEG: cameras put those through a tone curve.';
    const remedy = 'Leave the encoding away, unless you developed the file yourself with no curve.';
    raised.push(gate('ENCODING_DOUBTFUL', 'warn', null, everything, message, remedy));
  }
  if (facts.outsideGamutShare > 0.05) {
    const message = `${percent(facts.outsideGamutShare)} of the glow is more saturated than the file's colour space can hold.`;
    const remedy = "Read the colour as 'at least this saturated'; a raw development in a wider space shows more.";
    raised.push(gate('OUT_OF_GAMUT', 'warn', facts.outsideGamutShare, ['colour', 'redPrint'], message, remedy));
  }
  return raised;
}

function roomGates(facts: GateFacts): Gate[] {
  const remedy = 'Darken the room, and photograph again.';
  if (facts.ambientShare !== null) {
    if (facts.ambientShare <= 0.05) return [];
    const message = `Room light: ${percent(facts.ambientShare)} of the lamp's light; it was subtracted.`;
    const refusesRed = facts.ambientShare > 0.25;
    const warned: readonly FigureGroup[] = refusesRed ? ['evenness', 'luminance', 'colour'] : ['evenness', 'redPrint'];
    const warn = gate('ROOM_LIGHT', 'warn', facts.ambientShare, warned, message, remedy);
    if (!refusesRed) return [warn];
    return [warn, gate('ROOM_LIGHT', 'refuse', facts.ambientShare, ['redPrint'], message, remedy)];
  }
  if (facts.room === 'dark') {
    const message = 'The room is taken as dark, as stated; that is not checked.';
    const nothing = 'Nothing to do if it was dark; other light would make the red print look too red.';
    return [gate('ROOM_UNKNOWN', 'warn', null, ['redPrint'], message, nothing)];
  }
  if (facts.room === 'lit') {
    const message = 'Other light than the lamp fell on the window, and there is no lamp-off photo to subtract.';
    return [
      gate('ROOM_LIGHT', 'warn', null, ['evenness', 'luminance', 'colour'], message, remedy),
      gate('ROOM_LIGHT', 'refuse', null, ['redPrint'], message, remedy),
    ];
  }
  const message = 'The red print cannot be judged: it is not known whether other light fell on the window.';
  return [gate('ROOM_UNKNOWN', 'refuse', null, ['redPrint'], message, `State the room as dark if it was. ${remedy}`)];
}

function printGates(facts: GateFacts): Gate[] {
  if (facts.polarity === null) {
    const message = 'It is not clear whether dark print stands on a glowing ground or lit figures on black.';
    const remedy = 'Check the outline; state the print as dark (the ground glows) or light (the figures glow).';
    return [gate('PRINT_UNDECIDED', 'refuse', null, everything, message, remedy)];
  }
  if (facts.printMaskFrom !== 'photo') return [];
  const message = 'The print was found in this photo alone: shadows narrower than 4 mm may be taken for print.';
  const remedy =
    'Look at the picture of the print: a shadow that is marked there was left out, and the score is too good.';
  return [gate('PRINT_MASK_SINGLE_PHOTO', 'note', null, ['evenness', 'spots'], message, remedy)];
}

const allJudges = [
  clippingGates,
  darknessGates,
  noiseGates,
  sharpnessGates,
  lightGates,
  sizeGates,
  viewGates,
  roomGates,
  cameraGates,
  printGates,
];

/** The most severe first; those of one level stay in their order. */
export function bySeverity(gates: readonly Gate[]): Gate[] {
  const rank: Record<GateLevel, number> = { refuse: 0, warn: 1, note: 2 };
  return [...gates].sort((a, b) => rank[a.level] - rank[b.level]);
}

/**
 * All gates that one photo of one window raises, most severe first, in a fixed order within a level.
 *
 * @param facts shares 0..1, lengths in mm, angles in degrees
 * @returns an empty list for a photo without fault
 * @source thresholds: our own choice, from experiments with rendered photos (clipping, tilt, size) or common practice
 * @rule GT1
 */
export function raiseGates(facts: GateFacts): Gate[] {
  const raised = allJudges.flatMap((judge) => judge(facts));
  return bySeverity(raised);
}

/** The first refusing gate that affects a group of figures, or null. */
export function refusalOf(gates: readonly Gate[], group: FigureGroup): Gate | null {
  return gates.find((raised) => raised.level === 'refuse' && raised.affects.includes(group)) ?? null;
}
