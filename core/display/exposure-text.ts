/** An exposure time as cameras show it: `1/30 s`, `0.6 s`, `2 s`. @param seconds  over 0 */
export function exposureText(seconds: number): string {
  return seconds < 0.4 ? `1/${Math.round(1 / seconds)} s` : `${Number(seconds.toPrecision(3))} s`;
}
