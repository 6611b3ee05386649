import type { Sample } from '../sample-list';
import { bracket } from './bracket';
import { diffusers } from './diffusers';
import { lampSets } from './lamp-set';
import { positionSweep } from './position-sweep';
import { photosOf, type SampleSet } from './set';
import { singleLamps } from './single-lamps';
import { twoWindows } from './two-windows';

export type { SampleSet };

/** Photos to compare with each other; the evening's photos are in the sample list. */
export const sampleSets: readonly SampleSet[] = [
  bracket,
  positionSweep,
  diffusers,
  ...lampSets,
  singleLamps,
  twoWindows,
];

export const setSamples: readonly Sample[] = sampleSets.flatMap(photosOf);
