/**
 * Answers with planes on their way over a wire: JSON in which each typed array is replaced by its place in a binary
 * tail. Both ends are of this program, on this machine; numbers stand as the machine has them in memory.
 *
 *   bytes 0-3    length of the JSON, little-endian
 *   bytes 4-7    version, 1
 *   then         the JSON, in ASCII, filled up with blanks to a multiple of 8
 *   then         the arrays, each beginning at a multiple of 8
 */

const arrayKinds = { f32: Float32Array, u8: Uint8Array, u8c: Uint8ClampedArray } as const;
type ArrayKind = keyof typeof arrayKinds;
type PackedArray = InstanceType<(typeof arrayKinds)[ArrayKind]>;

/** Stands in the JSON for an array; no object of the contract has a field of this name. */
const placeKey = '$array';
const version = 1;
const headBytes = 8;

const upToEight = (bytes: number): number => Math.ceil(bytes / 8) * 8;

function kindOf(value: object): ArrayKind | null {
  // Clamped arrays are no Uint8Arrays, and a Node Buffer is one: instanceof tells what the class name does not.
  for (const kind of Object.keys(arrayKinds) as ArrayKind[]) if (value instanceof arrayKinds[kind]) return kind;
  return null;
}

/** The value with places instead of arrays; the arrays go into `tail`. */
function withPlaces(value: unknown, tail: { arrays: PackedArray[]; bytes: number }): unknown {
  if (typeof value === 'number' && !Number.isFinite(value)) {
    throw new RangeError(`${value} outside an array cannot be packed: a figure that is missing is null`);
  }
  if (typeof value !== 'object' || value === null) return value;
  const kind = kindOf(value);
  if (kind !== null) {
    const array = value as PackedArray;
    const place = { [placeKey]: kind, at: tail.bytes, length: array.length };
    tail.arrays.push(array);
    tail.bytes = upToEight(tail.bytes + array.byteLength);
    return place;
  }
  if (ArrayBuffer.isView(value)) throw new RangeError(`${value.constructor.name} cannot be packed`);
  if (Array.isArray(value)) return value.map((one: unknown) => withPlaces(one, tail));
  if (Object.hasOwn(value, placeKey)) throw new RangeError(`an object with a field ${placeKey} cannot be packed`);
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, withPlaces(one, tail)]));
}

/** JSON with everything beyond ASCII written as \uXXXX: one byte a sign, without an encoder. */
function asciiJson(value: unknown): string {
  const text = JSON.stringify(value);
  return text.replace(/[^\x20-\x7e]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

/**
 * Packs a value of the contract: plain objects, lists, text, finite numbers, booleans, null, and the arrays
 * Float32Array, Uint8Array and Uint8ClampedArray, whose NaN and infinities are kept.
 *
 * @throws RangeError  for what would not come back as it was (a defect)
 * @source our own choice: planes are too large for JSON
 * @rule BE1
 */
export function packValue(value: unknown): Uint8Array {
  const tail: { arrays: PackedArray[]; bytes: number } = { arrays: [], bytes: 0 };
  // A list around it: a bare undefined has no JSON.
  const json = asciiJson([withPlaces(value ?? null, tail)]);
  const jsonBytes = upToEight(json.length);
  const packed = new Uint8Array(headBytes + jsonBytes + tail.bytes);
  const head = new DataView(packed.buffer);
  head.setUint32(0, jsonBytes, true);
  head.setUint32(4, version, true);
  packed.fill(0x20, headBytes, headBytes + jsonBytes);
  for (let i = 0; i < json.length; i++) packed[headBytes + i] = json.charCodeAt(i);
  let at = headBytes + jsonBytes;
  for (const array of tail.arrays) {
    packed.set(new Uint8Array(array.buffer, array.byteOffset, array.byteLength), at);
    at = upToEight(at + array.byteLength);
  }
  return packed;
}

function textOf(bytes: Uint8Array): string {
  let text = '';
  // Spread into arguments, of which a call takes only so many.
  for (let from = 0; from < bytes.length; from += 8192) {
    text += String.fromCharCode(...bytes.subarray(from, from + 8192));
  }
  return text;
}

/**
 * The value again; its arrays look into `packed` without a copy.
 *
 * @param packed  must begin at a multiple of 4 in its buffer
 * @throws RangeError  when it is no packed value, or cut short
 * @rule BE1
 */
export function unpackValue(packed: Uint8Array): unknown {
  if (packed.length < headBytes) throw new RangeError(`a packed value of ${packed.length} bytes`);
  const head = new DataView(packed.buffer, packed.byteOffset, headBytes);
  if (head.getUint32(4, true) !== version) throw new RangeError('not a packed value, or of another version');
  const tailAt = headBytes + head.getUint32(0, true);
  if (tailAt > packed.length) throw new RangeError('a packed value that is cut short');
  const restored = JSON.parse(textOf(packed.subarray(headBytes, tailAt)), (_, value: unknown) => {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, placeKey)) return value;
    return arrayAt(packed, tailAt, value as Record<string, unknown>);
  }) as unknown[];
  return restored[0];
}

function arrayAt(packed: Uint8Array, tailAt: number, place: Record<string, unknown>): PackedArray {
  const { [placeKey]: kind, at, length } = place;
  if (typeof kind !== 'string' || !Object.hasOwn(arrayKinds, kind)) throw new RangeError(`an array of ${String(kind)}`);
  const Kind = arrayKinds[kind as ArrayKind];
  const isCount = (count: unknown): count is number => Number.isSafeInteger(count) && (count as number) >= 0;
  if (!isCount(at) || !isCount(length) || tailAt + at + length * Kind.BYTES_PER_ELEMENT > packed.length) {
    throw new RangeError('a packed array that is cut short');
  }
  return new Kind(packed.buffer as ArrayBuffer, packed.byteOffset + tailAt + at, length);
}
