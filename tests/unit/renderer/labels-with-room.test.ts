import { describe, expect, it } from 'vitest';
import { luminanceScale, unevennessScale } from '../../../core/display/panels';
import { labelsWithRoom } from '../../../renderer/views/reading/labels-with-room';

describe('labelsWithRoom', () => {
  it('[SC36] keeps both ends and the middle, and of the others those that do not run into them', () => {
    const ticks = [0, 0.225, 0.37, 0.5, 0.617, 0.775, 1].map((share) => ({ share, label: `${share}` }));
    expect(labelsWithRoom(ticks).map(({ share }) => share).sort()).toEqual([0, 0.225, 0.5, 0.775, 1]); // prettier-ignore
  });

  it('[SC36] leaves out nothing of the scales that have room', () => {
    for (const { ticks } of [luminanceScale, unevennessScale]) expect(labelsWithRoom(ticks)).toHaveLength(ticks.length);
  });
});
