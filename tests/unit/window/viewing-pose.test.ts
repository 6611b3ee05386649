import { describe, expect, it } from 'vitest';
import type { Corners } from '../../../core/base/points';
import { aspectFromCorners, tiltDeg } from '../../../core/window/viewing-pose';

const widthPx = 1600;
const heightPx = 1200;

interface Pose {
  readonly yawDeg: number;
  readonly pitchDeg: number;
  readonly offsetMm: readonly [number, number];
  readonly focal35: number;
}

/** The corners of a 92 x 18 mm window at 260 mm, turned about y, then about x, through a pinhole camera. */
function cornersOf({ yawDeg, pitchDeg, offsetMm, focal35 }: Pose): Corners {
  const focalPx = (focal35 / Math.hypot(36, 24)) * Math.hypot(widthPx, heightPx);
  const yaw = (yawDeg * Math.PI) / 180;
  const pitch = (pitchDeg * Math.PI) / 180;
  return [
    [-46, -9],
    [46, -9],
    [46, 9],
    [-46, 9],
  ].map(([x, y]) => {
    const turnedX = x * Math.cos(yaw);
    const depth = -x * Math.sin(yaw);
    const turnedY = y * Math.cos(pitch) - depth * Math.sin(pitch);
    const z = y * Math.sin(pitch) + depth * Math.cos(pitch) + 260;
    return {
      column: widthPx / 2 + (focalPx * (turnedX + offsetMm[0])) / z,
      row: heightPx / 2 + (focalPx * (turnedY + offsetMm[1])) / z,
    };
  }) as unknown as Corners;
}

/** Angle between the normal and the axis for that order of turns: cos = cos yaw cos pitch. */
const trueTiltDeg = (yawDeg: number, pitchDeg: number) =>
  (Math.acos(Math.cos((yawDeg * Math.PI) / 180) * Math.cos((pitchDeg * Math.PI) / 180)) * 180) / Math.PI;

const poses: Pose[] = [];
for (const yawDeg of [-50, -20, 0, 7, 35]) {
  for (const pitchDeg of [-25, 0, 12]) {
    poses.push({ yawDeg, pitchDeg, offsetMm: [0, 0], focal35: 52 });
    poses.push({ yawDeg, pitchDeg, offsetMm: [31, -17], focal35: 28 });
  }
}

describe('tiltDeg', () => {
  it('[WN7] is the angle of the pose, anywhere in the frame', () => {
    for (const pose of poses) {
      const found = tiltDeg(cornersOf(pose), widthPx, heightPx, pose.focal35);
      expect(found).toBeWithin(trueTiltDeg(pose.yawDeg, pose.pitchDeg), 0.01); // exact but for rounding near 0
    }
  });

  it('[WN7] takes 28 mm when the file does not say', () => {
    const corners = cornersOf({ yawDeg: 30, pitchDeg: 5, offsetMm: [4, 3], focal35: 28 });
    expect(tiltDeg(corners, widthPx, heightPx, null)).toBeWithin(trueTiltDeg(30, 5), 0.01);
  });

  it('[WN7] moves by less than 1 degree when the corners are 0.25 px off', () => {
    const exact = cornersOf({ yawDeg: 25, pitchDeg: -10, offsetMm: [5, 8], focal35: 28 });
    const shaken = exact.map(({ column, row }, i) => ({
      column: column + (i % 2 ? 0.25 : -0.25),
      row: row + (i < 2 ? -0.25 : 0.25),
    })) as unknown as Corners;
    expect(tiltDeg(shaken, widthPx, heightPx, 28)).toBeWithin(trueTiltDeg(25, -10), 1);
  });
});

describe('aspectFromCorners', () => {
  it('[WN8] is the true width over height, from every pose', () => {
    for (const pose of poses) {
      expect(aspectFromCorners(cornersOf(pose), widthPx, heightPx, pose.focal35)).toBeWithin(92 / 18, 1e-6);
    }
  });
});
