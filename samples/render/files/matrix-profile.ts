import type { Camera } from '../camera/settings';

/** Primaries and white as x, y. */
interface Primaries {
  readonly red: readonly [number, number];
  readonly green: readonly [number, number];
  readonly blue: readonly [number, number];
  readonly white: readonly [number, number];
}

const d65: readonly [number, number] = [0.3127, 0.329];
const primaries: Readonly<Record<'srgb' | 'wide', Primaries>> = {
  srgb: { red: [0.64, 0.33], green: [0.3, 0.6], blue: [0.15, 0.06], white: d65 },
  wide: { red: [0.68, 0.32], green: [0.265, 0.69], blue: [0.15, 0.06], white: d65 },
};

type Rows = readonly (readonly [number, number, number])[];
type Row = readonly [number, number, number];

const product = (m: Rows, v: Row): Row =>
  m.map((row) => row[0] * v[0] + row[1] * v[1] + row[2] * v[2]) as unknown as Row;
const xyzOf = ([x, y]: readonly [number, number]): Row => [x / y, 1, (1 - x - y) / y];

function inverse(m: Rows): Rows {
  const [[a, b, c], [d, e, f], [g, h, i]] = m;
  const det = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  const rows: Rows = [
    [e * i - f * h, c * h - b * i, b * f - c * e],
    [f * g - d * i, a * i - c * g, c * d - a * f],
    [d * h - e * g, b * g - a * h, a * e - b * d],
  ];
  return rows.map((row) => row.map((value) => value / det) as unknown as Row);
}

/** Bradford's cone matrix, and the white of the profile connection space. */
const bradford: Rows = [
  [0.8951, 0.2664, -0.1614],
  [-0.7502, 1.7135, 0.0367],
  [0.0389, -0.0685, 1.0296],
];
const d50: Row = [0.9642, 1, 0.8249];

/** X, Y, Z of the three channels at full, adapted to D50: the colorants of a matrix profile. */
function colorants(space: 'srgb' | 'wide'): { red: Row; green: Row; blue: Row } {
  const { red, green, blue, white } = primaries[space];
  const columns = [xyzOf(red), xyzOf(green), xyzOf(blue)];
  const rows: Rows = [0, 1, 2].map((k) => [columns[0][k], columns[1][k], columns[2][k]] as const);
  const amounts = product(inverse(rows), xyzOf(white));
  const from = product(bradford, xyzOf(white));
  const to = product(bradford, d50);
  const adapted = (column: Row, amount: number): Row => {
    const cones = product(bradford, [column[0] * amount, column[1] * amount, column[2] * amount]);
    return product(inverse(bradford), [
      (cones[0] * to[0]) / from[0],
      (cones[1] * to[1]) / from[1],
      (cones[2] * to[2]) / from[2],
    ]);
  };
  return {
    red: adapted(columns[0], amounts[0]),
    green: adapted(columns[1], amounts[1]),
    blue: adapted(columns[2], amounts[2]),
  };
}

const fixed = (value: number) => Math.round(value * 65536);

function tagXyz(value: Row): Buffer {
  const tag = Buffer.alloc(20);
  tag.write('XYZ ', 0, 'latin1');
  value.forEach((one, k) => tag.writeInt32BE(fixed(one), 8 + 4 * k));
  return tag;
}

function tagText(kind: 'desc' | 'text', text: string): Buffer {
  if (kind === 'text')
    return Buffer.concat([Buffer.from('text\0\0\0\0', 'latin1'), Buffer.from(`${text}\0`, 'latin1')]);
  const tag = Buffer.alloc(12 + text.length + 1 + 78);
  tag.write('desc', 0, 'latin1');
  tag.writeUInt32BE(text.length + 1, 8);
  tag.write(text, 12, 'latin1');
  return tag;
}

/** The sRGB curve as a type 3 parametric curve, or the straight line. */
function tagCurve(linear: boolean): Buffer {
  if (linear) return Buffer.from('curv\0\0\0\0\0\0\0\0', 'latin1');
  const numbers = [2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045];
  const tag = Buffer.alloc(12 + 4 * numbers.length);
  tag.write('para', 0, 'latin1');
  tag.writeUInt16BE(3, 8);
  numbers.forEach((value, k) => tag.writeInt32BE(fixed(value), 12 + 4 * k));
  return tag;
}

/** A display profile of matrix and curve kind, ICC version 2.4 (4.2 for the parametric curve). */
function matrixProfile(space: 'srgb' | 'wide', linear: boolean): Buffer {
  const { red, green, blue } = colorants(space);
  const curve = tagCurve(linear);
  const tags: [string, Buffer][] = [
    ['desc', tagText('desc', `Evendial sample ${space}${linear ? ', linear' : ''}`)],
    ['cprt', tagText('text', 'MIT licence')],
    ['wtpt', tagXyz(d50)],
    ['rXYZ', tagXyz(red)],
    ['gXYZ', tagXyz(green)],
    ['bXYZ', tagXyz(blue)],
    ['rTRC', curve],
    ['gTRC', curve],
    ['bTRC', curve],
  ];
  const table = Buffer.alloc(4 + 12 * tags.length);
  table.writeUInt32BE(tags.length, 0);
  const parts: Buffer[] = [];
  let offset = 128 + table.length;
  tags.forEach(([name, data], i) => {
    const padded = Buffer.concat([data, Buffer.alloc((4 - (data.length % 4)) % 4)]);
    table.write(name, 4 + 12 * i, 'latin1');
    table.writeUInt32BE(offset, 8 + 12 * i);
    table.writeUInt32BE(data.length, 12 + 12 * i);
    parts.push(padded);
    offset += padded.length;
  });
  return Buffer.concat([header(offset), table, ...parts]);
}

function header(size: number): Buffer {
  const head = Buffer.alloc(128);
  head.writeUInt32BE(size, 0);
  head.writeUInt32BE(0x02400000, 8);
  head.write('mntrRGB XYZ ', 12, 'latin1');
  // A fixed date keeps the file the same on every run.
  [2026, 1, 1, 0, 0, 0].forEach((value, k) => head.writeUInt16BE(value, 24 + 2 * k));
  head.write('acsp', 36, 'latin1');
  d50.forEach((one, k) => head.writeInt32BE(fixed(one), 68 + 4 * k));
  return head;
}

/** The profile that the camera puts into its file, if it does. */
export function profileOf(camera: Camera): Buffer | null {
  return camera.profile ? matrixProfile(camera.colourSpace, camera.response.kind === 'linear') : null;
}
