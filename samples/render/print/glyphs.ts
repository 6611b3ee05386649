import { arc, type Stroke } from './strokes';

type Line = readonly (readonly [number, number])[];

/** Our own figures, drawn with one pen in a box 0.62 wide and 1 high. */
const shapes: Readonly<Record<string, readonly Line[]>> = {
  '0': [arc([0.31, 0.5], [0.29, 0.48], 0, 360)],
  '1': [
    [
      [0.12, 0.22],
      [0.36, 0.02],
      [0.36, 0.98],
    ],
  ],
  '2': [[...arc([0.31, 0.29], [0.27, 0.27], -170, 30), [0.05, 0.98], [0.6, 0.98]]],
  '3': [[[0.06, 0.02], [0.54, 0.02], [0.28, 0.4], ...arc([0.29, 0.69], [0.28, 0.29], -80, 155)]],
  '4': [
    [
      [0.46, 0.98],
      [0.46, 0.02],
      [0.02, 0.7],
      [0.62, 0.7],
    ],
  ],
  '5': [[[0.54, 0.02], [0.12, 0.02], [0.09, 0.44], ...arc([0.3, 0.68], [0.28, 0.3], -120, 150)]],
  '6': [[[0.46, 0.02], ...arc([0.31, 0.67], [0.28, 0.31], 195, -165)]],
  '8': [arc([0.31, 0.25], [0.22, 0.23], 0, 360), arc([0.31, 0.73], [0.28, 0.25], 0, 360)],
  '9': [[[0.16, 0.98], ...arc([0.31, 0.33], [0.28, 0.31], 15, -345)]],
  '-': [
    [
      [0.12, 0.52],
      [0.5, 0.52],
    ],
  ],
  '+': [
    [
      [0.1, 0.52],
      [0.52, 0.52],
    ],
    [
      [0.31, 0.31],
      [0.31, 0.73],
    ],
  ],
  M: [
    [
      [0.03, 0.98],
      [0.03, 0.02],
      [0.31, 0.62],
      [0.59, 0.02],
      [0.59, 0.98],
    ],
  ],
  H: [
    [
      [0.05, 0.02],
      [0.05, 0.98],
    ],
    [
      [0.57, 0.02],
      [0.57, 0.98],
    ],
    [
      [0.05, 0.5],
      [0.57, 0.5],
    ],
  ],
  z: [
    [
      [0.08, 0.42],
      [0.52, 0.42],
      [0.08, 0.98],
      [0.52, 0.98],
    ],
  ],
  d: [
    [
      [0.52, 0.02],
      [0.52, 0.98],
    ],
    arc([0.29, 0.7], [0.23, 0.28], 0, 360),
  ],
  B: [
    [
      [0.06, 0.02],
      [0.06, 0.98],
    ],
    [[0.06, 0.02], [0.3, 0.02], ...arc([0.3, 0.25], [0.23, 0.23], -90, 90), [0.06, 0.48]],
    [[0.06, 0.48], [0.32, 0.48], ...arc([0.32, 0.73], [0.26, 0.25], -90, 90), [0.06, 0.98]],
  ],
};

const advance = 0.86;

/** Strokes of a short text centred at a place. Sizes in the unit of the drawing; `turnDeg` turns it clockwise about its middle. */
export function textStrokes(
  text: string,
  centre: readonly [number, number],
  heightMm: number,
  penMm: number,
  turnDeg = 0,
): Stroke[] {
  const widthInHeights = (text.length - 1) * advance + 0.62;
  const [cos, sin] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  return [...text].flatMap((letter, i) => {
    const lines = shapes[letter];
    if (!lines) throw new RangeError(`no shape for the letter "${letter}"`);
    return lines.map((points) => ({
      width: penMm,
      points: points.map(([u, v]): [number, number] => {
        const x = (u + i * advance - widthInHeights / 2) * heightMm;
        const y = (v - 0.5) * heightMm;
        return [centre[0] + x * cos - y * sin, centre[1] + x * sin + y * cos];
      }),
    }));
  });
}
