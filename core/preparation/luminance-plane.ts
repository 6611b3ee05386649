import { createPlane, type Plane } from '../base/plane';
import type { ColourPlanes } from '../photo/lamp-off';
import { luminanceWeights } from '../window/rgb-weights';

/** Relative luminance of linear sRGB, cell by cell. @source IEC 61966-2-1:1999 */
export function luminancePlane({ red, green, blue }: ColourPlanes): Plane {
  const [ofRed, ofGreen, ofBlue] = luminanceWeights;
  const luminance = createPlane(green.width, green.height);
  for (let i = 0; i < luminance.values.length; i++) {
    luminance.values[i] = ofRed * red.values[i] + ofGreen * green.values[i] + ofBlue * blue.values[i];
  }
  return luminance;
}
