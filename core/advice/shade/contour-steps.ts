import type { Plane } from '../../base/plane';

/** Where the layers of a pen end: lines at these transmissions. @source our own choice: one layer of a grey pen apart */
export const contourLevels = [0.75, 0.5, 0.35, 0.25] as const;

/** What one, two, three and four layers have to let through: the middle, in ln, of what is wanted between two lines. */
export const layerTransmissions = contourLevels.map((level, i) =>
  Math.sqrt(level * (contourLevels[i + 1] ?? level * 0.7)),
);

/**
 * The transmission as a pen can make it: clear down to the first line, then one layer more at each line.
 *
 * @source our own choice
 * @rule AV8
 */
export function steppedTransmission(transmission: Plane): Plane {
  const stepOf = (value: number): number => {
    const layers = contourLevels.filter((level) => value < level).length;
    return layers === 0 ? 1 : layerTransmissions[layers - 1];
  };
  return { ...transmission, values: transmission.values.map(stepOf) };
}
