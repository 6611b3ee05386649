import type { Gate } from '../../contract/gates';
import { cameraGates } from './camera';
import { clippingGates } from './clipping';
import { darknessGates, noiseGates } from './darkness';
import { disturbanceGates } from './disturbance';
import { bySeverity } from './gate';
import type { GateFacts } from './gate-facts';
import { printGates } from './print';
import { roomGates } from './room';
import { sharpnessGates } from './sharpness';
import { sizeGates } from './size';
import { viewGates } from './view';

const allJudges = [
  clippingGates,
  darknessGates,
  sharpnessGates,
  disturbanceGates,
  sizeGates,
  viewGates,
  // After the frame: a dark one in the outline is noise to its last cell.
  noiseGates,
  roomGates,
  cameraGates,
  printGates,
];

/**
 * All gates that one photo of one window raises, most severe first, in a fixed order within a level.
 *
 * @param facts shares 0..1, lengths in mm, angles in degrees
 * @returns an empty list for a photo without fault
 * @source thresholds: our own choice, from experiments with rendered photos (clipping, tilt, size) or common practice
 * @rule GT1
 */
export function raiseGates(facts: GateFacts): Gate[] {
  const raised = allJudges.flatMap((judge) => judge(facts));
  return bySeverity(raised);
}
