import { lampsOf, photoOf, seriesHead, shotOf } from '../series-parts';
import type { SampleSet, Try } from './set';

function tryOf({ name, photos, lamps }: Try, helpers: object): object {
  const [first] = photos;
  return { name, ...shotOf(first), photos: photos.map(photoOf), ...helpers, lamps: lamps ?? lampsOf(first) };
}

/** The series file that measures a set. */
export function seriesOfSet({ room, reference, tries, helpers = {} }: SampleSet): object {
  const beside = Object.fromEntries(Object.entries(helpers).map(([role, one]) => [role, photoOf(one)]));
  const named = reference?.window === undefined ? {} : { window: reference.window };
  return {
    ...seriesHead(reference?.photo ?? tries[0].photos[0], room),
    ...(reference ? { reference: { ...named, ...shotOf(reference.photo, reference.window), ...beside } } : {}),
    trials: tries.map((one) => tryOf(one, beside)),
  };
}
