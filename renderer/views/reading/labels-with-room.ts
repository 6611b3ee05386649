import type { PanelScale } from '../../../core/display/panels';

/** Of the bar's height: nearer to each other two labels run together. */
const leastApart = 0.14;

/** The labels that have room, both ends and the middle before the others. @rule SC36 */
export function labelsWithRoom(ticks: PanelScale['ticks']): PanelScale['ticks'] {
  const fromMiddle = ({ share }: PanelScale['ticks'][number]): number => Math.abs(share - 0.5);
  const isEnd = ({ share }: PanelScale['ticks'][number]): boolean => share < 0.01 || share > 0.99;
  const ends = ticks.filter(isEnd);
  const inner = ticks.filter((tick) => !isEnd(tick)).sort((a, b) => fromMiddle(a) - fromMiddle(b));
  return inner.reduce(
    (kept, tick) => (kept.every(({ share }) => Math.abs(share - tick.share) >= leastApart) ? [...kept, tick] : kept),
    ends,
  );
}
