/** Where the camera stands. Angles in degrees; all 0 looks straight at the panel. */
export interface Pose {
  readonly yawDeg: number;
  readonly pitchDeg: number;
  readonly rollDeg: number;
  /** Width of the panel that fills the photo's width when seen straight on, mm. */
  readonly framedMm: number;
  /** What the camera's axis hits, on the panel, mm. */
  readonly aimMm: readonly [number, number];
}

export type Point = readonly [number, number];

/** A plane seen by a pinhole camera: panel millimetres to photo pixels and back. */
export interface PlaneView {
  readonly toPhoto: (mm: Point) => Point;
  readonly toPanel: (px: Point) => Point;
  /** The matrix behind `toPanel`, row by row, up to a factor. */
  readonly panelFromPhoto: readonly number[];
  /** Between the camera's axis and the panel's normal, degrees. */
  readonly tiltDeg: number;
}

type Matrix = readonly number[];

function apply(m: Matrix, [x, y]: Point): Point {
  const w = m[6] * x + m[7] * y + m[8];
  return [(m[0] * x + m[1] * y + m[2]) / w, (m[3] * x + m[4] * y + m[5]) / w];
}

function times(a: Matrix, b: Matrix): number[] {
  return a.map((_, at) => {
    const row = 3 * Math.floor(at / 3);
    const column = at % 3;
    return a[row] * b[column] + a[row + 1] * b[column + 3] + a[row + 2] * b[column + 6];
  });
}

/** Inverse up to a factor, which a homography does not feel. */
function adjugate(m: Matrix): number[] {
  const [a, b, c, d, e, f, g, h, i] = m;
  return [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ];
}

function turns(yawDeg: number, pitchDeg: number, rollDeg: number): number[] {
  const [sy, sp, sr] = [yawDeg, pitchDeg, rollDeg].map((deg) => Math.sin((deg * Math.PI) / 180));
  const [cy, cp, cr] = [yawDeg, pitchDeg, rollDeg].map((deg) => Math.cos((deg * Math.PI) / 180));
  const yaw = [cy, 0, sy, 0, 1, 0, -sy, 0, cy];
  const pitch = [1, 0, 0, 0, cp, -sp, 0, sp, cp];
  const roll = [cr, -sr, 0, sr, cr, 0, 0, 0, 1];
  return times(roll, times(pitch, yaw));
}

/** Focal length in pixels of a camera that states a 35-mm-equivalent one: by the diagonal, 43.27 mm. */
export function focalLengthPx(focalLength35Mm: number, widthPx: number, heightPx: number): number {
  return (focalLength35Mm / Math.hypot(36, 24)) * Math.hypot(widthPx, heightPx);
}

/** The panel as a pinhole camera sees it, its axis through the middle of the photo. First pixel's centre is (0.5, 0.5). */
export function planeView(pose: Pose, widthPx: number, heightPx: number, focalLength35Mm: number): PlaneView {
  const focalPx = focalLengthPx(focalLength35Mm, widthPx, heightPx);
  const distanceMm = (focalPx * pose.framedMm) / widthPx;
  const r = turns(pose.yawDeg, pose.pitchDeg, pose.rollDeg);
  const fromAim = [1, 0, -pose.aimMm[0], 0, 1, -pose.aimMm[1], 0, 0, 1];
  // Columns: the panel's x and y directions in the camera's space, and the aim point straight ahead.
  const inSpace = [r[0], r[1], 0, r[3], r[4], 0, r[6], r[7], distanceMm];
  const lens = [focalPx, 0, widthPx / 2, 0, focalPx, heightPx / 2, 0, 0, 1];
  const forward = times(lens, times(inSpace, fromAim));
  const backward = adjugate(forward);
  return {
    toPhoto: (mm) => apply(forward, mm),
    toPanel: (px) => apply(backward, px),
    panelFromPhoto: backward,
    tiltDeg: (Math.acos(Math.min(1, Math.abs(r[8]))) * 180) / Math.PI,
  };
}
