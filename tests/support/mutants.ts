import { seededNumbers } from '../unit/photo/draw-decoded';

type Numbers = () => number;

const below = (next: Numbers, most: number): number => Math.floor(next() * most);

/** What may happen to a file: on its way, by a bad disk, or by someone who means it. Each gives a new array. */
const mutations: readonly ((bytes: Uint8Array, next: Numbers) => Uint8Array)[] = [
  // Cut off.
  (bytes, next) => bytes.slice(0, below(next, bytes.length)),
  // One to five bytes changed.
  (bytes, next) => {
    const changed = bytes.slice();
    for (let hits = 1 + below(next, 5); hits > 0; hits--) changed[below(next, bytes.length)] = below(next, 256);
    return changed;
  },
  // A single bit, in the first 64 bytes: sizes, counts and offsets.
  (bytes, next) => {
    const changed = bytes.slice();
    changed[below(next, Math.min(64, bytes.length))] ^= 1 << below(next, 8);
    return changed;
  },
  // Four bytes of ones or zeros: the largest and the smallest count or offset.
  (bytes, next) => bytes.slice().fill(next() < 0.5 ? 255 : 0, ...spanOf(bytes, next, 4)),
  // A stretch of zeros, as an unwritten block leaves.
  (bytes, next) => bytes.slice().fill(0, ...spanOf(bytes, next, 1 + below(next, bytes.length / 2))),
  // A stretch left out.
  (bytes, next) => {
    const [from, to] = spanOf(bytes, next, 1 + below(next, bytes.length / 4));
    return Uint8Array.from([...bytes.subarray(0, from), ...bytes.subarray(to)]);
  },
  // A stretch twice.
  (bytes, next) => {
    const [from, to] = spanOf(bytes, next, 1 + below(next, bytes.length / 4));
    return Uint8Array.from([...bytes.subarray(0, to), ...bytes.subarray(from)]);
  },
];

function spanOf(bytes: Uint8Array, next: Numbers, length: number): [from: number, to: number] {
  const from = below(next, bytes.length);
  return [from, Math.min(bytes.length, Math.floor(from + length))];
}

/** Neighbouring seeds would begin with neighbouring numbers. @source finaliser of MurmurHash3 (public domain, from memory) */
function spread(number: number): number {
  let mixed = Math.imul(number ^ (number >>> 16), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return (mixed ^ (mixed >>> 16)) >>> 0;
}

/** The mutant of this number: the same bytes each time. Not altered: `bytes`. */
export function mutantOf(bytes: Uint8Array, number: number): Uint8Array {
  const next = seededNumbers(spread(number + 1));
  // A copy of a plain kind: the slice() of a Buffer shares its bytes.
  return mutations[below(next, mutations.length)](Uint8Array.from(bytes), next);
}
