import { gaussianBlur } from '../blur';
import { acrossGap, type Sheet } from './sheet';
import { fieldCellsPerMm, type FieldMap, sampleField } from './field-map';
import type { LightName } from './spectra';

/** A lamp behind a window, in the window's millimetres; z grows away from the viewer. */
export interface Lamp {
  readonly light: LightName;
  readonly xMm: number;
  readonly yMm: number;
  /** Depth behind the scale, mm. */
  readonly zMm: number;
  /** Lobe exponent m of cos^m: 1 spreads like paper, 20 is a narrow beam. */
  readonly lobe: number;
  /** Where the lamp is turned: degrees to the right and downwards as one reads the window; 0, 0 looks straight at the scale. */
  readonly tiltDeg?: readonly [number, number];
  /** Lumens, up to one factor common to all scenes. */
  readonly flux: number;
}

/** How the box behind the window treats light. */
export interface Box {
  /** Share of the lamps' light that ends as an even glow from the white walls, 0..1. */
  readonly diffuseShare: number;
  /** Blur of a diffuser between lamp and scale, Gaussian sigma in mm; 0 for none. */
  readonly diffuserMm?: number;
  /** Pieces of tape on the back of the scale: what they let through, centre, half size and softness in mm. */
  readonly shades?: readonly Shade[];
  /** A sheet of tracing paper between lamps and scale; left out: none. */
  readonly sheet?: Sheet;
  /** Brightness of the even glow at the left end over the right end; 1 when left out. */
  readonly glowLeftOverRight?: number;
}

export interface Shade {
  readonly transmission: number;
  readonly xMm: number;
  readonly yMm: number;
  readonly halfWidthMm: number;
  readonly halfHeightMm: number;
  readonly softMm: number;
}

/**
 * Illuminance of the scale, or of a sheet so far behind it, by one bare lamp: flux (m+1)/(2 pi) cos^m(theta) cos(incidence) / d^2,
 * theta from the lamp's own axis. Zero behind the lamp.
 */
function direct(lamp: Lamp, behindScaleMm: number, xMm: number, yMm: number): number {
  const zMm = lamp.zMm - behindScaleMm;
  const dx = xMm - lamp.xMm;
  const dy = yMm - lamp.yMm;
  const d = Math.hypot(dx, dy, zMm);
  const [tiltX, tiltY] = lamp.tiltDeg ?? [0, 0];
  const ax = Math.tan((tiltX * Math.PI) / 180);
  const ay = Math.tan((tiltY * Math.PI) / 180);
  const cosFromAxis = (dx * ax + dy * ay + zMm) / (d * Math.hypot(ax, ay, 1));
  if (cosFromAxis <= 0) return 0;
  const intensity = ((lamp.flux * (lamp.lobe + 1)) / (2 * Math.PI)) * Math.pow(cosFromAxis, lamp.lobe);
  return (intensity * (zMm / d)) / (d * d);
}

function shadeAt(shade: Shade, xMm: number, yMm: number): number {
  const edge = (outsideMm: number) => 1 / (1 + Math.exp(outsideMm / (0.4 * shade.softMm)));
  const covered =
    edge(Math.abs(xMm - shade.xMm) - shade.halfWidthMm) * edge(Math.abs(yMm - shade.yMm) - shade.halfHeightMm);
  return 1 - (1 - shade.transmission) * covered;
}

/** Luminance field of the lamps of one kind of light, before scale and print. */
export function lampField(lamps: readonly Lamp[], box: Box, widthMm: number, heightMm: number): FieldMap {
  const totalFlux = lamps.reduce((sum, lamp) => sum + lamp.flux, 0);
  const even = (box.diffuseShare * totalFlux) / (widthMm * heightMm);
  const lean = Math.log(box.glowLeftOverRight ?? 1);
  const toSheetMm = box.sheet?.gapMm ?? 0;
  const lightOf = (xMm: number, yMm: number): number => {
    const straight = lamps.reduce((sum, lamp) => sum + direct(lamp, toSheetMm, xMm, yMm), 0);
    return (1 - box.diffuseShare) * straight + even * Math.exp(lean * (0.5 - xMm / widthMm));
  };
  const seen = box.sheet === undefined ? lightOf : acrossGap(box.sheet, widthMm, heightMm, lightOf);
  const bare = sampleField(widthMm, heightMm, seen);
  const sigmaCells = (box.diffuserMm ?? 0) * fieldCellsPerMm;
  const values = gaussianBlur(bare.values, bare.widthCells, bare.heightCells, sigmaCells);
  const shades = box.shades ?? [];
  const shaded = sampleField(widthMm, heightMm, (xMm, yMm) =>
    shades.reduce((product, shade) => product * shadeAt(shade, xMm, yMm), 1),
  );
  return { ...bare, values: values.map((value, i) => value * shaded.values[i]) };
}
