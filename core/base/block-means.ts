/**
 * Mean of each by x by block of three interleaved channels; what is left over at the right and below is dropped.
 *
 * @param rgb  linear light, rows of `widthPx` pixels; not altered
 * @source common practice
 */
export function blockMeans(rgb: Float32Array, widthPx: number, heightPx: number, by: number): Float32Array {
  const width = Math.floor(widthPx / by);
  const height = Math.floor(heightPx / by);
  const sums = new Float64Array(3 * width);
  const means = new Float32Array(3 * width * height);
  for (let row = 0; row < height; row++) {
    sums.fill(0);
    for (let line = row * by; line < (row + 1) * by; line++) {
      let at = 3 * line * widthPx;
      for (let cell = 0; cell < 3 * width; cell += 3) {
        for (let i = 0; i < by; i++, at += 3) {
          sums[cell] += rgb[at];
          sums[cell + 1] += rgb[at + 1];
          sums[cell + 2] += rgb[at + 2];
        }
      }
    }
    for (let i = 0; i < sums.length; i++) means[3 * width * row + i] = sums[i] / (by * by);
  }
  return means;
}
