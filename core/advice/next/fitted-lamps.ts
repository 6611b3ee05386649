import type { Plane } from '../../base/plane';
import type { Figure } from '../../contract/figure';
import { halvedMap, meanOnGlow, type MeasuredMap } from '../measured-map';
import type { FoundLamps } from '../place/advise-place';
import type { LampFit } from '../place/fit-lamps';
import { forecastMove, lightOfModel, scoreOfMove, together } from '../place/forecast-move';

/** Lamps moved straight back, with what that does. */
export interface MovedBack {
  readonly byMm: number;
  readonly evenness: Figure;
  /** Of the glow's mean; below 0 where it gains. */
  readonly lightLoss: number;
}

const stepMm = 2;
const farthestStepMm = 14;
/** No lamp farther behind the scale than this, mm: boxes are seldom deeper. */
const deepestMm = 30;
/** A step that gains nearly as much needs less room. */
const enoughOfTheMost = 0.9;

const indices = ({ model }: LampFit): number[] => model.lamps.map((_, i) => i);

/**
 * All fitted lamps moved back by the least step, 2 to 14 mm, that gains nine tenths of what the best of them gains; null when
 * none gains anything.
 *
 * @source the forecast of PL4; steps, and 30 mm at most behind the scale: our own choice
 * @rule NX4
 */
export function bestMoveBack(map: MeasuredMap, fit: LampFit, measured: Figure): MovedBack | null {
  const lamps = indices(fit);
  const deepest = Math.max(...fit.model.lamps.map(({ depthMm }) => depthMm));
  const steps = Array.from({ length: farthestStepMm / stepMm }, (_, i) => (i + 1) * stepMm).filter(
    (byMm) => deepest + byMm <= deepestMm,
  );
  const backBy = (byMm: number) => together(lamps, [0, 0, byMm]);
  const now = scoreOfMove(map, fit, backBy(0));
  const gains = steps.map((byMm) => scoreOfMove(map, fit, backBy(byMm)) - now);
  const most = Math.max(0, ...gains);
  const at = gains.findIndex((gain) => gain > 0 && gain >= enoughOfTheMost * most);
  if (at < 0) return null;
  const { evenness, light } = forecastMove(map, fit, backBy(steps[at]), measured);
  return { byMm: steps[at], evenness, lightLoss: 1 - meanOnGlow(map, light) / meanOnGlow(map, map.light) };
}

/** A lamp whose front is frosted shines like paper. */
const frostedLobe = 1;

/**
 * The light of the same lamps with frosted fronts: a narrower lobe opened to that of Lambert's law at the same flux; box light
 * stays, since it comes from all of the flux.
 *
 * @returns on the map that the lamps were fitted to
 * @source Lambert's law; flux of a cos^m lobe = 2 pi I / (m + 1); complete frosting: our own choice
 * @rule NX2
 */
export function withFrostedLamps(map: MeasuredMap, { model }: LampFit): Plane {
  const lamps = model.lamps.map((lamp) =>
    lamp.lobe <= frostedLobe
      ? lamp
      : { ...lamp, lobe: frostedLobe, strength: (lamp.strength * (frostedLobe + 1)) / (lamp.lobe + 1) },
  );
  return lightOfModel(map, model, { ...model, lamps });
}

/** The map of the fit with its light frosted where lamps were found, else as it is. */
export function frostedMap(map: MeasuredMap, found: FoundLamps): MeasuredMap {
  return 'refusal' in found ? halvedMap(map) : { ...found.map, light: withFrostedLamps(found.map, found.fit) };
}
