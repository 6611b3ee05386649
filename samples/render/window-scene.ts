import { type FieldMap, fieldAt } from './light/field-map';
import { type Box, type Lamp, lampField } from './light/lamp';
import { transmission } from './light/materials';
import { type LightName, lights, times, tristimulus, type Xyz } from './light/spectra';

/** Outline inside the window's bounding box: the whole box, or the inscribed circle with an optional polygon cut. */
export type Outline =
  | { readonly kind: 'rectangle' }
  | { readonly kind: 'ellipse'; readonly cutMm?: readonly (readonly [number, number])[] };

export type PrintName =
  'larkfield-t60' | 'larkfield-t60-black' | 'larkfield-t60-tuning' | 'larkfield-t60-band' | 'larkfield-m4' | 'none';

/** One lit window: its shape, its print and the lamps behind it. */
export interface LitWindow {
  readonly name: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly outline: Outline;
  readonly print: PrintName;
  /** The light as a user would state it. */
  readonly light: string;
  readonly lamps: readonly Lamp[];
  readonly box: Box;
}

/** The field of one kind of light with the tristimulus values of a unit of it through the unprinted scale. */
export interface LightLayer {
  readonly light: LightName;
  readonly field: FieldMap;
  readonly xyzThroughScale: Xyz;
}

/** One layer a kind of light, so that lamps of two colours may lie apart. */
export function layersOf(window: LitWindow): LightLayer[] {
  const kinds = [...new Set(window.lamps.map((lamp) => lamp.light))];
  return kinds.map((light) => ({
    light,
    field: lampField(
      window.lamps.filter((lamp) => lamp.light === light),
      window.box,
      window.widthMm,
      window.heightMm,
    ),
    xyzThroughScale: tristimulus(times(lights[light], transmission.base)),
  }));
}

/** Tristimulus values of the glow without print at a place of the window. */
export function glowAt(layers: readonly LightLayer[], xMm: number, yMm: number): Xyz {
  const sum: [number, number, number] = [0, 0, 0];
  for (const layer of layers) {
    const strength = fieldAt(layer.field, xMm, yMm);
    for (let k = 0; k < 3; k++) sum[k] += strength * layer.xyzThroughScale[k];
  }
  return sum;
}
