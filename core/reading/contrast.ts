/**
 * Weber contrast of a mark to its surround: (L - L_surround) / L_surround.
 *
 * @param relLuminance          0 or more
 * @param surroundRelLuminance  above 0
 * @returns -1 or more; negative = darker than the surround
 * @source definition
 * @rule LU6
 */
export function weberContrast(relLuminance: number, surroundRelLuminance: number): number {
  return relLuminance / surroundRelLuminance - 1;
}
