import type { UnitLamp, UnitTrial, UnitWindow } from '../contract/unit-record';

function mirroredLamp(lamp: UnitLamp, widthMm: number): UnitLamp {
  const { positionMm, tiltDeg } = lamp;
  return {
    ...lamp,
    ...(positionMm === undefined ? {} : { positionMm: [widthMm - positionMm[0], positionMm[1], positionMm[2]] }),
    ...(tiltDeg === undefined ? {} : { tiltDeg: [0 - tiltDeg[0], tiltDeg[1]] }),
  };
}

/**
 * A trial for the window on the other side of a unit: each lamp as far from the right edge as it was from the left one
 * (x becomes width - x), turned the other way (tilt across the window changes its sign); heights and depths stay.
 *
 * @param window  the one that the mirrored lamps are to light, size in mm
 * @source plane mirror about the upright through the window's middle
 * @rule BK9
 */
export function mirroredTrial(trial: UnitTrial, window: UnitWindow): UnitTrial {
  return {
    ...trial,
    windows: [window.name],
    mirroredTo: window.name,
    ...(trial.lamps === undefined ? {} : { lamps: trial.lamps.map((lamp) => mirroredLamp(lamp, window.widthMm)) }),
  };
}
