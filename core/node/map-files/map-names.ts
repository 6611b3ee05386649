/** A reading's place among the files: its own name and its window's. */
export interface NamedReading {
  readonly name: string;
  readonly window: string;
}

// Device names that one operating system reserves, with or without extension.
const reserved = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;

/** File systems count bytes, 255 at most; a repeat's number, the kind of map and a temporary ending come behind. */
const mostBytes = 150;

/** As many whole signs from the start as fit into so many bytes of UTF-8. */
function cutToBytes(signs: readonly string[], bytes: number): string {
  let text = '';
  for (const sign of signs) {
    if (Buffer.byteLength(text + sign) > bytes) break;
    text += sign;
  }
  return text;
}

/**
 * A name that is safe as a file name everywhere: letters and digits of any script, dots, hyphens and underscores stay; all else becomes `_`.
 *
 * @rule MP1
 */
export function safeFileName(name: string): string {
  const signs = [...name.normalize('NFC')].map((sign) => (/[\p{L}\p{M}\p{N}._-]/u.test(sign) ? sign : '_'));
  const safe = cutToBytes(signs.slice(0, 80), mostBytes).replace(/^[.-]/, '_').replace(/\.$/, '_');
  return safe === '' || reserved.test(safe) ? `_${safe}` : safe;
}

/**
 * One file name a reading: its name, with the window's name added when there are several windows; repeats get `-2`, `-3`.
 * Names that differ only by capitals count as repeats: some file systems do not tell them apart.
 *
 * @returns in the order given, all different
 * @rule MP1
 */
export function mapNames(readings: readonly NamedReading[]): string[] {
  const several = new Set(readings.map((reading) => reading.window)).size > 1;
  return numberRepeats(readings.map(({ name, window }) => safeFileName(several ? `${name}-${window}` : name)));
}

/** Repeats, also those that differ by capitals only, get `-2`, `-3`. */
function numberRepeats(bases: readonly string[]): string[] {
  const taken = new Set<string>();
  return bases.map((base) => {
    let unique = base;
    for (let repeat = 2; taken.has(unique.toLowerCase()); repeat++) unique = `${base}-${repeat}`;
    taken.add(unique.toLowerCase());
    return unique;
  });
}

/**
 * File names of differences, `B-minus-A`: both are cut to what fits.
 *
 * @param pairs map names, each pair's a first
 * @returns in the order given, all different
 * @rule MP1, PR7
 */
export function differenceNames(pairs: readonly (readonly [a: string, b: string])[]): string[] {
  const cut = (name: string): string => cutToBytes([...name], mostBytes / 2);
  return numberRepeats(pairs.map(([a, b]) => `${cut(b)}-minus-${cut(a)}`));
}
