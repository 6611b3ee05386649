import { z } from 'zod';
import { gateCodes } from '../../core/contract/gates';
import { encodings } from '../../core/contract/light';

/** The readings document as the contract writes it, key by key: an unknown or missing key fails. */
const reason = z.string().min(1);
export const figureSchema = z.union([
  z.strictObject({ value: z.number(), plusMinus: z.number().min(0), reason: z.undefined().optional() }),
  z.strictObject({ value: z.null(), plusMinus: z.null(), reason }),
]);
const sampledPoints = z.strictObject({
  minOverMax: figureSchema,
  values: z.array(z.number().min(0).max(1).nullable()).nullable(),
  plusMinus: z.array(z.number().min(0).nullable()).nullable(),
});
const share = z.number().min(0).max(1);
const photo = z.strictObject({
  file: z.string(),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  widthPx: z.int().positive(),
  heightPx: z.int().positive(),
  bitDepth: z.int().positive(),
  format: z.string(),
  colourSpace: z.string(),
  colourSpaceAssumed: z.boolean(),
  encoding: z.enum(encodings),
  camera: z.strictObject({
    make: z.string().optional(),
    model: z.string().optional(),
    exposureS: z.number().positive().optional(),
    fNumber: z.number().positive().optional(),
    iso: z.number().positive().optional(),
    focalLengthMm: z.number().positive().optional(),
    whiteBalance: z.enum(['manual', 'auto', 'unknown']),
    takenAt: z
      .string()
      .regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d/)
      .optional(),
  }),
});
const outline = z.strictObject({
  cornersPx: z.array(z.tuple([z.number(), z.number()])).length(4),
  cornersFrom: z.enum(['given', 'search', 'registration']),
  searchConfidence: share.optional(),
  widthMm: z.number().positive(),
  heightMm: z.number().positive(),
  sizeKnown: z.boolean(),
  kind: z.enum(['rectangle', 'ellipse', 'polygon']),
  print: z.enum(['dark', 'light', 'none']),
  pxPerMm: z.number().positive(),
  tiltDeg: z.number().min(0).max(90),
  glowShare: share,
  registrationMm: z.number().optional(),
});
const groups = z.enum(['evenness', 'spots', 'luminance', 'colour', 'redPrint']);
const gate = z.strictObject({
  code: z.enum(gateCodes),
  level: z.enum(['note', 'warn', 'refuse']),
  message: z.string().min(1),
  remedy: z.string().min(1),
  value: z.number().nullable(),
  affects: z.array(groups).min(1),
});
const spot = z.strictObject({
  kind: z.enum(['hot', 'dark']),
  xMm: z.number(),
  yMm: z.number(),
  plusMinusMm: z.number().min(0),
  diameterMm: z.number().positive(),
  ratioToGlow: z.number().positive(),
  ratioPlusMinus: z.number().positive().nullable(),
  atLeast: z.boolean(),
  elongation: z.number().min(1),
  angleDeg: z.number().min(0).max(180),
  lampSide: z.string().optional(),
});

export const readingSchema = z.strictObject({
  name: z.string(),
  window: z.string(),
  photos: z.array(photo).min(1),
  outline,
  gates: z.array(gate),
  evenness: z.strictObject({
    score: figureSchema,
    words: z.string(),
    toReference: figureSchema,
    visibleUnevenness: z.number().min(0).nullable(),
    minOverMax: figureSchema,
    p5OverP95: figureSchema,
    coefficientOfVariation: figureSchema,
    ninePoint: sampledPoints,
    fivePoint: sampledPoints,
    thirteenPoint: sampledPoints,
    steepestPercentPerMm: figureSchema,
    leftOverRight: figureSchema,
    topOverBottom: figureSchema,
  }),
  spots: z.array(spot),
  spotsReason: reason.optional(),
  luminance: z.strictObject({
    glowMean: figureSchema,
    cdM2: figureSchema,
    ofReference: figureSchema,
    clippedShare: share,
    ambientShare: z.number().min(0).nullable(),
  }),
  colour: z.strictObject({
    x: figureSchema,
    y: figureSchema,
    uPrime: figureSchema,
    vPrime: figureSchema,
    cctK: figureSchema,
    duv: figureSchema,
    spreadUv: figureSchema,
    gradientUvPer10Mm: figureSchema,
    toReferenceUv: figureSchema,
    toReferenceDeltaE00: figureSchema,
    outOfGamut: z.boolean(),
    verdict: z.string(),
  }),
  redPrint: z.strictObject({
    maskFrom: z.enum(['reference', 'lampOff', 'printPhoto', 'trials', 'photo', 'painted', 'none']),
    strokeMm: z.number().positive().nullable(),
    redness: figureSchema,
    luminanceContrast: figureSchema,
    index: figureSchema,
    indexAgainst: z.enum(['reference', 'typical']).nullable(),
    darkContrastKept: figureSchema,
    visibilityRatio: figureSchema,
    deltaE00: figureSchema,
    words: z.string(),
  }),
  maps: z.strictObject({ glowLuminance: z.string(), chromaticity: z.string(), printMask: z.string() }).optional(),
  timingMs: z.strictObject({ decode: z.number().min(0), measure: z.number().min(0) }),
});

export const failedSchema = z.strictObject({
  file: z.string(),
  error: z.strictObject({
    code: z.string().regex(/^[A-Z0-9_]+$/),
    message: z.string().min(1),
    remedy: z.string().min(1),
  }),
});

const entries = z.array(z.union([readingSchema, failedSchema]));
export const readingsSchema = z.strictObject({
  format: z.literal('evendial-readings'),
  version: z.literal(1),
  readings: entries,
  reference: entries.optional(),
});
