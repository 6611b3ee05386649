import { stat } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';
import { mapFromText, type MeasuredMap } from '../../advice/measured-map';
import type { Figure } from '../../contract/figure';
import { printable } from '../../display/figure-text';
import { usageError } from './arguments';
import { readNamedFile, readNamedReading } from './reading-file';
import type { Shell } from './shell';

const figure = z.union([
  z.object({ value: z.number(), plusMinus: z.number().nonnegative() }),
  z.object({ value: z.null(), plusMinus: z.null(), reason: z.string().default('no reason given') }),
]);
const spot = z.object({ kind: z.enum(['hot', 'dark']), xMm: z.number(), yMm: z.number(), ratioToGlow: z.number() });
const mappedSchema = z.object({
  name: z.string(),
  evenness: z.object({ score: figure }),
  spots: z.array(spot),
  outline: z.object({ sizeKnown: z.boolean() }).default({ sizeKnown: true }),
  maps: z.object({ glowLuminance: z.string() }).optional(),
});

/** What advice needs of a reading: its score, its spots and its map. */
export interface MappedReading {
  readonly name: string;
  readonly score: Figure;
  readonly spots: readonly z.infer<typeof spot>[];
  readonly map: MeasuredMap;
  readonly isSizeKnown: boolean;
}

/** Maps lie beside the readings, or as seen from the folder that both were written from. */
async function placeOf(map: string, readings: string, shell: Shell): Promise<string> {
  const beside = path.resolve(shell.folder, path.dirname(readings), map);
  const isThere = await stat(beside).then(
    (facts) => facts.isFile(),
    () => false,
  );
  return isThere ? beside : path.resolve(shell.folder, map);
}

/**
 * A reading with its map of luminance, named as `READINGS.json[#name]`; its path is relative to the readings' folder.
 *
 * @throws AppError READING_WITHOUT_MAPS; else as `readNamedReading`, `readNamedFile` and `mapFromText`
 * @rule AV1
 */
export async function readMappedReading(option: string, text: string, shell: Shell): Promise<MappedReading> {
  const { reading, file, called } = await readNamedReading(option, text, mappedSchema, shell);
  if (reading.maps === undefined) {
    const remedy = "Measure again with 'evendial measure ... --maps DIR --json'.";
    throw usageError(`${called}: ${printable(reading.name)} has no maps`, remedy, 'READING_WITHOUT_MAPS');
  }
  const map = await placeOf(reading.maps.glowLuminance, file, shell);
  const { score } = reading.evenness;
  return {
    name: reading.name,
    score,
    spots: reading.spots,
    isSizeKnown: reading.outline.sizeKnown,
    map: mapFromText(await readNamedFile(option, map, shell), printable(path.basename(map))),
  };
}
