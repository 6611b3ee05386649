import type { FailedWindow, MeasuredWindow, MeasureResult } from '../contract/measure';
import type { UnitPhoto } from '../contract/unit-record';

/** An original as it is measured: under its checksum, with its folder or without. */
const original = /(?:photos\/)?([0-9a-f]{64})\.[a-z0-9]{1,8}/g;

/** By checksum: what the file was called; where two photos were called alike, with the beginning of the checksum. */
function namesByChecksum(photos: readonly UnitPhoto[]): ReadonlyMap<string, string> {
  const names = new Map(photos.map(({ sha256, name }) => [sha256, name]));
  const all = [...names.values()];
  return new Map(
    [...names].map(([sha256, name]) => {
      const isShared = all.filter((other) => other === name).length > 1;
      return [sha256, isShared ? `${name} (${sha256.slice(0, 8)})` : name];
    }),
  );
}

/**
 * Gives a text's originals the names of the record; one that the record does not know stays as it is.
 *
 * @rule BK29
 */
export function photoNamer(photos: readonly UnitPhoto[]): (text: string) => string {
  const names = namesByChecksum(photos);
  return (text) => text.replace(original, (place, sha256: string) => names.get(sha256) ?? place);
}

function measuredAs(entry: MeasuredWindow, named: (text: string) => string): MeasuredWindow {
  const { reading } = entry;
  const photos = reading.photos.map((photo) => ({ ...photo, file: named(photo.file) }));
  const gates = reading.gates.map((gate) => ({ ...gate, message: named(gate.message) }));
  return { ...entry, reading: { ...reading, photos, gates } };
}

function failedAs(entry: FailedWindow, named: (text: string) => string): FailedWindow {
  const { file, error } = entry.failed;
  return { ...entry, failed: { file: named(file), error: { ...error, message: named(error.message) } } };
}

/**
 * What was measured of a unit, its photos named as the record names them: originals lie under their checksums, which tell
 * a person nothing.
 *
 * @rule BK29
 */
export function namedAsInRecord(result: MeasureResult, photos: readonly UnitPhoto[]): MeasureResult {
  const named = photoNamer(photos);
  const windows = result.windows.map((entry) =>
    'reading' in entry ? measuredAs(entry, named) : failedAs(entry, named),
  );
  return { ...result, windows };
}
