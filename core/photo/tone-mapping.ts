/** What in a photo's notes says that its light was not kept as it fell on the sensor; worded for a sentence. */
export const toneMappingHints = {
  hdr: 'HDR rendering',
  gainMap: 'a gain map for HDR screens',
  portrait: 'a portrait mode',
  night: 'a night mode',
  panorama: 'a panorama put together from several photos',
  own: "the camera's own special rendering",
  software: 'software that names HDR, night or portrait',
} as const;
export type ToneMappingHint = (typeof toneMappingHints)[keyof typeof toneMappingHints];

/** The notes that are looked at; NaN and undefined where the photo has none. */
export interface RenderingNotes {
  readonly customRendered: number;
  readonly sceneCaptureType: number;
  readonly software: string | undefined;
}

/**
 * EXIF knows 0 (normal) and 1 (custom). Phones write more: 2 and 3 HDR, 4 the plain photo beside an HDR one, 6 panorama,
 * 7 and 8 portrait. What is not known counts as a rendering of its own.
 */
function renderingHint(value: number): ToneMappingHint | null {
  if (Number.isNaN(value) || value === 0 || value === 4) return null;
  if (value === 2 || value === 3) return toneMappingHints.hdr;
  if (value === 6) return toneMappingHints.panorama;
  return value === 7 || value === 8 ? toneMappingHints.portrait : toneMappingHints.own;
}

function sceneHint(value: number): ToneMappingHint | null {
  if (value === 2) return toneMappingHints.portrait;
  return value === 3 ? toneMappingHints.night : null;
}

/** Letters before the word make it another one: a knight is no night. */
const tellingWords = /(?<![a-z])(hdr|night|portrait)/i;

/** Marks of a gain map that stand as text in the file: names in XMP and HEIC, and the ISO standard's in JPEG and HEIC. */
const gainMapMarks = ['hdrgainmap', 'hdr-gain-map', 'iso:ts:21496'].map((mark) =>
  Uint8Array.from(mark, (letter) => letter.charCodeAt(0)),
);

/** 0x20 makes capital letters small and leaves signs and figures as they are. */
function holdsAt(bytes: Uint8Array, at: number, mark: Uint8Array): boolean {
  for (let i = 0; i < mark.length; i++) if ((bytes[at + i] | 0x20) !== mark[i]) return false;
  return true;
}

/** An item of type `tmap`, a tone map made of a picture and its gain map, in the list of a HEIC or AVIF file. */
function isToneMapItem(bytes: Uint8Array, at: number): boolean {
  const isWord = (from: number, word: string): boolean =>
    [...word].every((letter, i) => bytes[from + i] === letter.charCodeAt(0));
  // The item's number before its type takes two bytes in version 2 of the entry, four in version 3.
  return isWord(at, 'tmap') && (isWord(at - 12, 'infe') || isWord(at - 14, 'infe'));
}

/** Notes stand in the first part of a file, and a gain map of its own after the photo; pixels between need no search. */
const headBytes = 2 ** 22;
const tailBytes = 2 ** 23;

/** Whether a file carries a gain map. The marks are long enough not to turn up in picture data by chance. */
function holdsGainMap(bytes: Uint8Array): boolean {
  for (let at = 0; at < bytes.length; at++) {
    if (at === headBytes) at = Math.max(at, bytes.length - tailBytes);
    const first = bytes[at] | 0x20;
    const second = bytes[at + 1] | 0x20;
    // All marks begin with hd, is or tm: two bytes sort out nearly every place of a large file at once.
    const maybe =
      (first === 0x68 && second === 0x64) || (first === 0x69 && second === 0x73) || (first === 0x74 && second === 0x6d);
    if (!maybe) continue;
    if (gainMapMarks.some((mark) => holdsAt(bytes, at, mark)) || isToneMapItem(bytes, at)) return true;
  }
  return false;
}

/**
 * Why a photo's light may have been changed place by place (local tone mapping), by its own notes.
 *
 * Silence proves nothing: phones map tones without a note as a matter of course.
 *
 * @param notes  CustomRendered, SceneCaptureType and Software of the EXIF notes
 * @param bytes  the whole file; not altered
 * @returns in the order of `toneMappingHints`, each once; empty when nothing is said
 * @source CIPA DC-008-2019 (Exif 2.32) for 0 and 1 and the scene types; values of phones, the marks of gain maps
 *         (ISO/TS 21496-1 and its forerunners) and the item type `tmap` from memory
 * @rule CK3
 */
export function findToneMapping(notes: RenderingNotes, bytes: Uint8Array): ToneMappingHint[] {
  const found = new Set<ToneMappingHint | null>([
    renderingHint(notes.customRendered),
    sceneHint(notes.sceneCaptureType),
    holdsGainMap(bytes) ? toneMappingHints.gainMap : null,
    tellingWords.test(notes.software ?? '') ? toneMappingHints.software : null,
  ]);
  return Object.values(toneMappingHints).filter((hint) => found.has(hint));
}
