/** A line drawn with a round pen. Places and width in the drawing's own unit. */
export interface Stroke {
  readonly points: readonly (readonly [number, number])[];
  readonly width: number;
}

/** Part of an ellipse as a polyline; angles in degrees, clockwise from x as y points down. */
export function arc(
  centre: readonly [number, number],
  radii: readonly [number, number],
  fromDeg: number,
  toDeg: number,
): [number, number][] {
  const steps = Math.max(4, Math.ceil(Math.abs(toDeg - fromDeg) / 6));
  return Array.from({ length: steps + 1 }, (_, i) => {
    const angle = ((fromDeg + ((toDeg - fromDeg) * i) / steps) * Math.PI) / 180;
    return [centre[0] + radii[0] * Math.cos(angle), centre[1] + radii[1] * Math.sin(angle)];
  });
}

/** Share 0..1 of ink over a drawing, at `density` samples per mm; overlapping strokes do not add up. */
export class InkPlane {
  readonly width: number;
  readonly height: number;
  readonly values: Float32Array;

  constructor(
    widthMm: number,
    heightMm: number,
    readonly density: number,
  ) {
    this.width = Math.ceil(widthMm * density);
    this.height = Math.ceil(heightMm * density);
    this.values = new Float32Array(this.width * this.height);
  }

  draw(stroke: Stroke): void {
    stroke.points.slice(1).forEach((end, i) => this.drawSegment(stroke.points[i], end, stroke.width / 2));
  }

  private drawSegment(a: readonly [number, number], b: readonly [number, number], radiusMm: number): void {
    const { density, width, height, values } = this;
    const reach = radiusMm + 1 / density;
    const left = Math.max(0, Math.floor((Math.min(a[0], b[0]) - reach) * density));
    const right = Math.min(width - 1, Math.ceil((Math.max(a[0], b[0]) + reach) * density));
    const top = Math.max(0, Math.floor((Math.min(a[1], b[1]) - reach) * density));
    const bottom = Math.min(height - 1, Math.ceil((Math.max(a[1], b[1]) + reach) * density));
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const lengthSquared = dx * dx + dy * dy || 1;
    for (let row = top; row <= bottom; row++) {
      for (let column = left; column <= right; column++) {
        const x = (column + 0.5) / density - a[0];
        const y = (row + 0.5) / density - a[1];
        const along = Math.min(1, Math.max(0, (x * dx + y * dy) / lengthSquared));
        const away = Math.hypot(x - along * dx, y - along * dy);
        // An edge one sample wide stands for the share of the sample that is inked.
        const share = Math.min(1, Math.max(0, (radiusMm - away) * density + 0.5));
        const at = row * width + column;
        if (share > values[at]) values[at] = share;
      }
    }
  }
}
