/** Weights of linear red, green and blue. */
export type RgbWeights = readonly [number, number, number];

/** Relative luminance of linear sRGB. @source IEC 61966-2-1:1999 */
export const luminanceWeights: RgbWeights = [0.2126, 0.7152, 0.0722];
/**
 * Long and middle cone responses of linear sRGB, D65: Hunt-Pointer-Estevez rows times the sRGB-to-XYZ matrix,
 * multiplied out, as the search runs over every cell.
 *
 * @source Hunt-Pointer-Estevez matrix (from memory) and IEC 61966-2-1:1999
 */
export const longCone: RgbWeights = [0.31400652, 0.63952605, 0.04649526];
export const middleCone: RgbWeights = [0.15537666, 0.75790876, 0.08670286];
