import { measuredMap } from '../../advice/measured-map';
import { isGainSure, noSureGain, whyNoShade } from '../../advice/shade/check-shade';
import { shadeAtStrength, workOutShade } from '../../advice/shade/plan-shade';
import { measurePhotos, type EnginePorts, type MeasureRun } from '../../engine';
import { mapNames } from '../map-files/map-names';
import { shadeFile } from '../sheet/shade-file';
import type { EngineTasks } from './messages';
import { onlyReading } from './only-reading';

/** The light to be left, as a percentile of the glow: as the command line has it. */
const targetPercent = 20;

/**
 * The page of a shade for the one window of a request. A gap that is not known gives the shape alone; a gain that is not sure, or
 * dots that would be seen, give no page.
 *
 * @rule AV8, BE3
 */
export async function shadePage(
  { request, gapMm, strength, isMirrored, form, version, savedAt }: EngineTasks['shade']['asks'],
  ports: EnginePorts,
  run: MeasureRun,
): Promise<EngineTasks['shade']['answers']> {
  const { reading, maps } = onlyReading(await measurePhotos({ ...request, withMaps: true }, ports, run));
  const before = reading.evenness.score;
  const style = 'halftone';
  const why = whyNoShade(before, gapMm, style);
  if (why) return { files: [], refusal: why };
  const { widthMm, heightMm } = maps;
  const map = measuredMap(maps.glowLuminance, 4, widthMm, heightMm, maps.exposureNormalised);
  const worked = workOutShade(map, { gapMm: gapMm ?? 0, targetPercent, style });
  const plan = shadeAtStrength(worked, before, strength);
  if (gapMm !== null && !isGainSure(before, plan.evennessAfter)) return { files: [], refusal: noSureGain };
  const isSizeKnown = reading.outline.sizeKnown;
  const shade = { name: reading.name, before, widthMm, heightMm, isSizeKnown, plan, gapMm, style, isMirrored, form, version, savedAt } as const; // prettier-ignore
  const content = await shadeFile(shade);
  const [name] = mapNames([reading]);
  const mediaType = form === 'pdf' ? 'application/pdf' : 'image/svg+xml';
  // A copy: a writer's buffer may lie in memory that cannot travel between threads.
  const bytes = Uint8Array.from(typeof content === 'string' ? Buffer.from(content, 'utf8') : content);
  return { files: [{ name: `${name}.shade.${form}`, mediaType, bytes }], refusal: null };
}
