import type { ChannelSamples } from './samples';

/** ln of two exposures' light may differ by this from ln of their ratio. @source our own choice */
const within = 0.05;
/** Share of the samples that have to. @source our own choice */
const mostOf = 0.8;
/** Under code 20 rounding alone is 2.5 %; from 250 on the channel may be clipped. @source our own choice */
const lowestCode = 20 / 255;
const highestCode = 250 / 255;
/** Fewer pairs tell nothing. */
const leastPairs = 100;

/**
 * Whether the codes of a channel are light already: twice the exposure gives twice the code.
 *
 * @returns share of pairs of neighbouring exposures whose codes' ratio is that of the exposures within 5 %, and the verdict:
 *   linear from 80 % on; null when fewer than 100 pairs lie between codes 20 and 250
 * @source our own choice
 * @rule BR4
 */
export function judgeLinear({ codes, relExposures }: ChannelSamples): { share: number; isLinear: boolean } | null {
  let [agreeing, all] = [0, 0];
  for (let frame = 0; frame + 1 < codes.length; frame++) {
    const expected = Math.log(relExposures[frame + 1] / relExposures[frame]);
    codes[frame].forEach((darker, i) => {
      const brighter = codes[frame + 1][i];
      if (!(darker >= lowestCode && brighter <= highestCode)) return;
      all += 1;
      if (Math.abs(Math.log(brighter / darker) - expected) < within) agreeing += 1;
    });
  }
  return all < leastPairs ? null : { share: agreeing / all, isLinear: agreeing >= mostOf * all };
}
