/** 8-bit sRGB. */
export type Rgb = readonly [number, number, number];

/** OKLab: lightness 0..1, then two opponent axes. */
export type Oklab = readonly [number, number, number];

/** OKLab of linear sRGB light. @source B. Ottosson, A perceptual color space for image processing, 2020 (from memory) */
export function oklabFromLinear([r, g, b]: readonly [number, number, number]): Oklab {
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

/** Linear sRGB light of OKLab; outside 0..1 where sRGB cannot show it. @source as oklabFromLinear */
export function linearFromOklab([lightness, a, b]: Oklab): [number, number, number] {
  const l = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (lightness - 0.0894841775 * a - 1.291485548 * b) ** 3;
  return [
    4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
    -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
    -0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s,
  ];
}

/** sRGB code 0..1 of linear light; clips. @source IEC 61966-2-1 */
export function encodedFromLinear(light: number): number {
  const clipped = Math.min(1, Math.max(0, light));
  return clipped <= 0.0031308 ? 12.92 * clipped : 1.055 * clipped ** (1 / 2.4) - 0.055;
}

/** Linear light of an sRGB code 0..1. @source IEC 61966-2-1 */
export function linearFromEncoded(code: number): number {
  return code <= 0.04045 ? code / 12.92 : ((code + 0.055) / 1.055) ** 2.4;
}

export function rgbFromOklab(colour: Oklab): Rgb {
  const [r, g, b] = linearFromOklab(colour).map((light) => Math.round(255 * encodedFromLinear(light)));
  return [r, g, b];
}

/**
 * Cosine and sine of an angle in degrees by their power series: plain arithmetic, so that the pictures are the same
 * to the last byte on every machine (the built-in functions are not).
 */
function directionOf(angleDeg: number): readonly [number, number] {
  const turn = (angleDeg / 180) * 3.141592653589793;
  let cosine = 0;
  let sine = 0;
  let term = 1;
  for (let n = 0; n < 48; n++) {
    if (n % 2 === 0) cosine += n % 4 === 0 ? term : -term;
    else sine += n % 4 === 1 ? term : -term;
    term *= turn / (n + 1);
  }
  return [cosine, sine];
}

/**
 * Colour of the luminance scale: lightness 0.22 to 0.96, hue from indigo through green to straw, chroma constant.
 * Equal steps along the scale are equal steps in OKLab, because lightness and hue both run evenly and chroma stays.
 *
 * @param share 0 (dark end) .. 1 (bright end); clamped
 * @source our own choice
 * @rule MP3
 */
export function luminanceColour(share: number): Oklab {
  const t = Math.min(1, Math.max(0, share));
  const [cosine, sine] = directionOf(282 - 176 * t);
  const chroma = 0.072;
  return [0.22 + 0.74 * t, chroma * cosine, chroma * sine];
}

/**
 * Colour of the scale with a middle: blue below, neutral grey at 0, sand above. Lightness rises all the way,
 * so that a copy in grey still shows which side is which.
 *
 * @param share -1 .. 1; clamped
 * @source our own choice
 * @rule MP3
 */
export function differenceColour(share: number): Oklab {
  const t = Math.min(1, Math.max(-1, share));
  const [cosine, sine] = directionOf(t < 0 ? 258 : 72);
  const chroma = 0.07 * Math.abs(t);
  return [0.58 + 0.31 * t, chroma * cosine, chroma * sine];
}
