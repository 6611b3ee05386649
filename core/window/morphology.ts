import { assertSameShape, createMask, createPlane, type Mask, type Plane } from '../base/plane';

/** Half width of a disk's chord at each distance from its middle row, in cells: floor(sqrt(r^2 - dy^2)). */
function chordsOf(radiusPx: number): number[] {
  const chords: number[] = [];
  for (let dy = 0; dy <= Math.floor(radiusPx); dy++) {
    chords.push(Math.floor(Math.sqrt(radiusPx * radiusPx - dy * dy) + 1e-9));
  }
  return chords;
}

/**
 * Largest value within a disk about each cell; what lies outside counts as -Infinity. The result has `growPx` cells
 * more than the plane on each side (fewer when negative).
 *
 * The disk is cut into its chords. The largest within h+1 to either side follows from that within h, so that one
 * walk over a row serves every chord.
 */
function dilateGrey(plane: Plane, radiusPx: number, growPx: number): Plane {
  const { width, height, values } = plane;
  const chords = chordsOf(radiusPx);
  const result = createPlane(width + 2 * growPx, height + 2 * growPx, -Infinity);
  const pad = chords[0] + 1;
  let within = new Float32Array(width + 2 * pad).fill(-Infinity);
  let wider = new Float32Array(width + 2 * pad).fill(-Infinity);
  for (let row = 0; row < height; row++) {
    within.fill(-Infinity);
    within.set(values.subarray(row * width, (row + 1) * width), pad);
    for (let half = 0; half <= chords[0]; half++) {
      if (half > 0) {
        for (let i = 1; i < within.length - 1; i++) {
          const left = within[i - 1];
          const right = within[i + 1];
          const side = left > right ? left : right;
          wider[i] = within[i] > side ? within[i] : side;
        }
        [within, wider] = [wider, within];
      }
      for (let dy = 0; dy < chords.length; dy++) {
        if (chords[dy] !== half) continue;
        raiseRow(result, row + growPx - dy, within, pad - growPx);
        if (dy > 0) raiseRow(result, row + growPx + dy, within, pad - growPx);
      }
    }
  }
  return result;
}

/**
 * Largest value within a disk about each cell, of the cells of the mask; -Infinity where there is none.
 *
 * @param plane    values outside the mask may be anything, NaN too; not altered
 * @param radiusPx 0 or more, in cells
 * @source common practice (grey dilation)
 */
export function largestWithin(plane: Plane, mask: Mask, radiusPx: number): Plane {
  return dilateGrey(onlyWithin(plane, mask), radiusPx, 0);
}

/** The plane where the mask is set, -Infinity elsewhere. */
function onlyWithin(plane: Plane, mask: Mask): Plane {
  assertSameShape(plane, mask);
  const kept = createPlane(plane.width, plane.height, -Infinity);
  for (let i = 0; i < kept.values.length; i++) if (mask.values[i]) kept.values[i] = plane.values[i];
  return kept;
}

/** Lifts one row of the result to at least the given values, of which the first belongs `pad` cells to its left. */
function raiseRow(result: Plane, row: number, atLeast: Float32Array, pad: number): void {
  if (row < 0 || row >= result.height) return;
  const from = row * result.width;
  const { values, width } = result;
  for (let i = 0; i < width; i++) {
    const value = atLeast[i + pad];
    if (value > values[from + i]) values[from + i] = value;
  }
}

/**
 * Grey closing with a disk: fills dark marks that are too narrow for the disk to fit in, and leaves the rest.
 *
 * What lies outside the mask (and outside the plane) counts as endlessly dark, so that the disk may lie partly
 * there: light that falls off towards the rim, and a bezel's shadow along it, stay as they are, while marks that
 * run into the rim are filled but for a sliver.
 *
 * @param plane    values outside the mask may be anything, NaN too; not altered
 * @param radiusPx 1 or more, in cells
 * @returns at least the plane's value at each cell of the mask; -Infinity elsewhere
 * @source Serra, Image analysis and mathematical morphology, 1982 (from memory); treatment of the rim: our own choice
 * @rule PM1
 */
export function closeGrey(plane: Plane, mask: Mask, radiusPx: number): Plane {
  const reach = Math.floor(radiusPx);
  const dilated = dilateGrey(onlyWithin(plane, mask), radiusPx, reach);
  // The smallest within the disk is minus the largest of the negative. Cells that no light reached are in the disk's
  // way nowhere: negated they would be +Infinity, so they are taken out.
  for (let i = 0; i < dilated.values.length; i++) {
    dilated.values[i] = dilated.values[i] === -Infinity ? -Infinity : -dilated.values[i];
  }
  const eroded = dilateGrey(dilated, radiusPx, -reach);
  for (let i = 0; i < eroded.values.length; i++) eroded.values[i] = -eroded.values[i];
  return onlyWithin(eroded, mask);
}

/**
 * Widens a mask by a disk.
 *
 * @param radiusPx 0 or more, in cells; below 1 gives a copy
 * @source common practice
 */
export function dilateMask(mask: Mask, radiusPx: number): Mask {
  const { width, height, values } = mask;
  const chords = chordsOf(radiusPx);
  const result = createMask(width, height);
  for (let row = 0; row < height; row++) {
    const line = values.subarray(row * width, (row + 1) * width);
    // A run of set cells widens to one run in each row of the disk.
    for (let start = line.indexOf(1); start >= 0; start = line.indexOf(1, start)) {
      const end = endOfRun(line, start);
      for (let dy = 1 - chords.length; dy < chords.length; dy++) {
        const y = row + dy;
        if (y < 0 || y >= height) continue;
        const half = chords[Math.abs(dy)];
        result.values.fill(1, y * width + Math.max(0, start - half), y * width + Math.min(width, end + half));
      }
      start = end;
    }
  }
  return result;
}

/** Where a run of set cells that begins at `start` ends: its first cell that is not set, or the line's length. */
function endOfRun(line: Uint8Array, start: number): number {
  let end = start;
  while (end < line.length && line[end]) end++;
  return end;
}

/** Opening with a square of 2 x 2 cells: drops what is one cell thin. @source common practice */
export function openByTwo(mask: Mask): Mask {
  const { width, height, values } = mask;
  const result = createMask(width, height);
  for (let row = 0; row + 1 < height; row++) {
    for (let column = 0; column + 1 < width; column++) {
      const at = row * width + column;
      if (!(values[at] && values[at + 1] && values[at + width] && values[at + width + 1])) continue;
      result.values[at] = result.values[at + 1] = result.values[at + width] = result.values[at + width + 1] = 1;
    }
  }
  return result;
}

/**
 * Hysteresis: the cells of `mask` above `low` that hang together (8 neighbours) with one above `high`.
 *
 * @source Canny, A computational approach to edge detection, 1986 (from memory)
 * @rule PM2
 */
export function aboveWithHysteresis(score: Plane, mask: Mask, low: number, high: number): Mask {
  assertSameShape(score, mask);
  const { width, height, values } = score;
  const result = createMask(width, height);
  const stack: number[] = [];
  for (let seed = 0; seed < values.length; seed++) {
    if (!(mask.values[seed] && values[seed] > high) || result.values[seed]) continue;
    result.values[seed] = 1;
    stack.push(seed);
    while (stack.length > 0) {
      const at = stack.pop()!;
      const column = at % width;
      const row = (at - column) / width;
      for (let y = Math.max(0, row - 1); y <= Math.min(height - 1, row + 1); y++) {
        for (let x = Math.max(0, column - 1); x <= Math.min(width - 1, column + 1); x++) {
          const next = y * width + x;
          if (result.values[next] || !mask.values[next] || !(values[next] > low)) continue;
          result.values[next] = 1;
          stack.push(next);
        }
      }
    }
  }
  return result;
}
