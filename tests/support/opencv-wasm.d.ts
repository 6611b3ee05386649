/** The few of OpenCV's functions that tests compare with; the package has no types of its own. */
declare module 'opencv-wasm' {
  class Mat {
    constructor(rows?: number, columns?: number, type?: number);
    readonly data32F: Float32Array;
    delete(): void;
  }
  export const cv: {
    readonly Mat: typeof Mat;
    readonly TermCriteria: new (type: number, steps: number, epsilon: number) => object;
    readonly CV_32F: number;
    readonly MOTION_HOMOGRAPHY: number;
    matFromArray(rows: number, columns: number, type: number, values: ArrayLike<number>): Mat;
    findTransformECC(
      template: Mat,
      picture: Mat,
      warp: Mat,
      motion: number,
      stop: object,
      mask: Mat,
      blurSize: number,
    ): number;
  };
}
