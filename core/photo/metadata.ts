// eslint-disable-next-line @typescript-eslint/triple-slash-reference -- declares the module for whoever compiles this file
/// <reference path="./exifreader.d.ts" />
import ExifReader from 'exifreader/dist/exif-reader.js';
import { onErrorStopParsing, DOMParser as XmlParser } from '@xmldom/xmldom';
import type { CameraFacts } from '../contract/readings';
import { findToneMapping, type ToneMappingHint } from './tone-mapping';

/** What the photo's own notes say. A note that is absent, zero over zero, infinite or garbage is left out. */
export interface PhotoNotes {
  readonly camera: CameraFacts;
  /** 35-mm-equivalent focal length in mm. */
  readonly focalLength35Mm?: number;
  /** Contrast, saturation, sharpness, rendering and scene as EXIF numbers them; left out where it tells none. */
  readonly pictureStyle?: string;
  /** EXIF ColorSpace is 1. */
  readonly exifSaysSrgb: boolean;
  /** 1..8; 1 where the note is absent or out of range. */
  readonly orientation: number;
  /** Signs of local tone mapping; see `findToneMapping`. */
  readonly toneMappingHints: readonly ToneMappingHint[];
}

/** The parts of an EXIF entry that we look at; everything in a file can be something else than it should be. */
interface Entry {
  readonly value?: unknown;
  readonly description?: unknown;
}
type Entries = Readonly<Record<string, Entry | undefined>>;

/** Longest text taken over: names are short, and a file may hold 64 KiB of anything. */
const textLimit = 100;

/** '1/60' or '5.6', as XMP writes numbers; NaN for anything else. */
function numberOfText(text: string): number {
  const found = /^\s*([+-]?\d+(?:\.\d+)?)(?:\/([+-]?\d+(?:\.\d+)?))?\s*$/.exec(text);
  if (!found) return NaN;
  return found[2] === undefined ? Number(found[1]) : Number(found[1]) / Number(found[2]);
}

/** A number, a fraction, a text of either, or the first of a list of these; NaN for anything else. */
function numberOf(value: unknown): number {
  if (typeof value === 'number') return value;
  if (typeof value === 'string') return numberOfText(value);
  if (isEntry(value)) return numberOf(value.value);
  if (!Array.isArray(value) || value.length === 0) return NaN;
  const [first, second] = value as unknown[];
  if (typeof first !== 'number') return numberOf(first);
  return value.length === 2 && typeof second === 'number' ? first / second : first;
}

function isEntry(value: unknown): value is Entry {
  return typeof value === 'object' && value !== null && !Array.isArray(value) && 'value' in value;
}

/** Within limits that no camera leaves; undefined otherwise. */
function plausible(entry: Entry | undefined, least: number, most: number): number | undefined {
  const value = numberOf(entry?.value);
  return value >= least && value <= most ? value : undefined;
}

function textOf(entry: Entry | undefined): string | undefined {
  const value: unknown = Array.isArray(entry?.value) ? entry.value[0] : entry?.value;
  const text = typeof value === 'string' ? value : typeof entry?.description === 'string' ? entry.description : '';
  // eslint-disable-next-line no-control-regex -- control signs and what no text decoder knew are what is removed
  const clean = text.replace(/[\u0000-\u001f\u007f-\u009f\ufffd]/g, '').trim();
  return clean ? [...clean].slice(0, textLimit).join('') : undefined;
}

/** '2022:04:20 08:42:17' as local ISO 8601; undefined when it is no date. */
function takenAtOf(entry: Entry | undefined): string | undefined {
  const found = /^(\d{4})[:-](\d{2})[:-](\d{2})[ T](\d{2}):(\d{2}):(\d{2})/.exec(textOf(entry) ?? '');
  if (!found) return undefined;
  const [year, month, day, hour, minute, second] = found.slice(1).map(Number);
  const date = new Date(Date.UTC(year, month - 1, day));
  const isDay = date.getUTCFullYear() === year && date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
  if (!isDay || year < 1980 || hour > 23 || minute > 59 || second > 59) return undefined;
  return `${found[1]}-${found[2]}-${found[3]}T${found[4]}:${found[5]}:${found[6]}`;
}

function whiteBalanceOf(entry: Entry | undefined): CameraFacts['whiteBalance'] {
  const value = numberOf(entry?.value);
  if (value === 0) return 'auto';
  return value === 1 ? 'manual' : 'unknown';
}

/** ShutterSpeedValue is -log2 of the exposure time; used where the time itself is missing. */
function exposureOf(entries: Entries): number | undefined {
  const stated = plausible(entries['ExposureTime'], 1e-6, 1e5);
  if (stated !== undefined) return stated;
  const apex = plausible(entries['ShutterSpeedValue'], -16, 20);
  return apex === undefined ? undefined : Math.pow(2, -apex);
}

/** ISO 65535 is what 16 bits can hold at most: EXIF uses it for "more", so it is no figure. */
function isoOf(entries: Entries): number | undefined {
  const stated = plausible(entries['ISOSpeedRatings'] ?? entries['PhotographicSensitivity'], 1, 65534);
  return stated ?? plausible(entries['RecommendedExposureIndex'], 1, 1e7) ?? plausible(entries['ISOSpeed'], 1, 1e7);
}

/** Drops what is undefined, so that an absent note is an absent field. */
function stated<T extends Record<string, unknown>>(fields: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  const kept = Object.entries(fields).filter(([, value]) => value !== undefined);
  return Object.fromEntries(kept) as { [K in keyof T]?: Exclude<T[K], undefined> };
}

function orientationOf(entry: Entry | undefined): number {
  const value = numberOf(entry?.value);
  return Number.isInteger(value) && value >= 1 && value <= 8 ? value : 1;
}

/** The notes that go with a camera's tone curve, in one text to be compared. */
const styleNotes = ['Contrast', 'Saturation', 'Sharpness', 'CustomRendered', 'SceneCaptureType'] as const;

function pictureStyleOf(entries: Entries): string | undefined {
  const told = styleNotes.flatMap((note) => {
    const value = numberOf(entries[note]?.value);
    return Number.isInteger(value) ? [`${note} ${value}`] : [];
  });
  return told.length === 0 ? undefined : told.join(', ');
}

interface Groups {
  readonly exif?: Entries;
  readonly xmp?: Entries;
}

/** XMP of cameras and raw developers is a few thousand signs long, of retouched photos ten times that. */
const longestXmp = 2 ** 17;
/** Twice what one photo holds: its own packet and the extended one. */
const mostXmpPackets = 4;

/** Parses XMP up to a limit: a parser's time grows faster than the text, and a file may repeat its packet a thousand times. */
function limitedXmlParser(): { parseFromString(text: string, type: string): unknown } {
  let packets = 0;
  return {
    parseFromString(text, type) {
      if (++packets > mostXmpPackets || text.length > longestXmp) throw new RangeError('too much XMP');
      return new XmlParser({ onError: onErrorStopParsing }).parseFromString(text, type);
    },
  };
}

/** Empty where the file holds no notes, or such that the reader cannot follow. */
function readGroups(bytes: Uint8Array): Groups {
  try {
    const buffer = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer;
    const options = { expanded: true, includeUnknown: false, domParser: limitedXmlParser() } as const;
    return ExifReader.load(buffer, options) as Groups;
  } catch (error) {
    // The reader throws its own error, RangeError or TypeError, by where the damage lies: all mean "no notes".
    if (error instanceof Error) return {};
    throw error;
  }
}

/**
 * Reads the camera's notes of a photo: EXIF, and where it lacks one, the same note in XMP. How the photo is turned, and
 * whether it is sRGB, is taken from EXIF alone: programs that turn a photo often leave the old note in XMP.
 *
 * Values outside these limits count as absent: exposure 1e-6..1e5 s, f-number 0.3..256, ISO 1..65534, focal lengths
 * 0.1..10000 mm, dates from 1980. XMP of more than 131 072 signs, or in more than four packets, counts as absent.
 *
 * @param bytes  the whole file, or enough of it to hold the notes; not altered
 * @returns never NaN, never empty text; never throws for damaged notes
 * @source CIPA DC-008-2019 (Exif 2.32); the limits are our own choice, beyond what any camera can be set to
 * @rule PX6
 */
export function readPhotoNotes(bytes: Uint8Array): PhotoNotes {
  const { exif = {}, xmp = {} } = readGroups(bytes);
  const entries: Entries = { ...xmp, ...exif };
  const camera: CameraFacts = {
    ...stated({
      make: textOf(entries['Make']),
      model: textOf(entries['Model']),
      exposureS: exposureOf(entries),
      fNumber: plausible(entries['FNumber'], 0.3, 256),
      iso: isoOf(entries),
      focalLengthMm: plausible(entries['FocalLength'], 0.1, 10_000),
      takenAt: takenAtOf(entries['DateTimeOriginal'] ?? entries['DateTimeDigitized']),
    }),
    whiteBalance: whiteBalanceOf(entries['WhiteBalance']),
  };
  return {
    camera,
    ...stated({
      focalLength35Mm: plausible(entries['FocalLengthIn35mmFilm'], 1, 10_000),
      pictureStyle: pictureStyleOf(exif),
    }),
    exifSaysSrgb: numberOf(exif['ColorSpace']?.value) === 1,
    orientation: orientationOf(exif['Orientation']),
    toneMappingHints: findToneMapping(
      {
        customRendered: numberOf(entries['CustomRendered']?.value),
        sceneCaptureType: numberOf(entries['SceneCaptureType']?.value),
        software: textOf(exif['Software']),
      },
      bytes,
    ),
  };
}
