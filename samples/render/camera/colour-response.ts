import { wavelengthsNm } from '../light/cmf-1931';
import { planck, type Spectrum, times, tristimulus, type Xyz } from '../light/spectra';
import { transmission } from '../light/materials';
import { linearSrgb } from '../truth/colour';

export type CameraColour = 'colorimetric' | 'everyday' | 'broad';

/** Linear sRGB that a camera makes of a spectrum, before exposure; unclipped. */
export type ColourResponse = (spectrum: Spectrum) => Xyz;

const bump = (peakNm: number, widthNm: number): Spectrum =>
  wavelengthsNm.map((nm) => Math.exp(-(((nm - peakNm) / widthNm) ** 2)));

/**
 * Invented sensitivities. The everyday ones are chosen so that the colour errors have the size that measured cameras show: u'v'
 * about .001 for filament light, .006 for warm-white, .01 for cool-white and .04 for narrow amber light. The broad ones lie farther
 * into the red and overlap more, so that another camera of the same make errs otherwise.
 */
const sensitivities: Readonly<Record<Exclude<CameraColour, 'colorimetric'>, readonly Spectrum[]>> = {
  everyday: [
    bump(607.7, 37.75).map((value, i) => value + 0.017 * bump(448.7, 25)[i]),
    bump(533.2, 42.3),
    bump(445.5, 27.3),
  ],
  broad: [bump(600, 52), bump(538, 56), bump(458, 36)],
};

const dot = (a: Spectrum, b: Spectrum) => a.reduce((sum, value, i) => sum + value * b[i], 0);

/** What the maker of the camera tuned its matrix on: coloured papers in daylight and filament light through cream plastic. */
function trainingSpectra(): { spectrum: Spectrum; weight: number }[] {
  const daylight = planck(6500);
  const papers = Array.from({ length: 24 }, (_, i) => {
    const peakNm = 400 + (i % 8) * 42;
    const widthNm = [70, 110, 170][Math.floor(i / 8)];
    const paper = bump(peakNm, widthNm).map((value) => 0.12 + 0.6 * value);
    return { spectrum: times(daylight, paper), weight: 1 };
  });
  const lamps = [2200, 2450, 2700, 3000].map((kelvin) => ({
    spectrum: times(planck(kelvin), transmission.base),
    weight: 6,
  }));
  return [...papers, ...lamps];
}

/** Solves a 3 x 3 system by Cramer's rule. */
function solve3(m: readonly Xyz[], right: Xyz): Xyz {
  const det = (a: readonly Xyz[]) =>
    a[0][0] * (a[1][1] * a[2][2] - a[1][2] * a[2][1]) -
    a[0][1] * (a[1][0] * a[2][2] - a[1][2] * a[2][0]) +
    a[0][2] * (a[1][0] * a[2][1] - a[1][1] * a[2][0]);
  const whole = det(m);
  const replaced = (column: number) =>
    m.map((row, i) => row.map((value, j) => (j === column ? right[i] : value)) as unknown as Xyz);
  return [det(replaced(0)) / whole, det(replaced(1)) / whole, det(replaced(2)) / whole];
}

/** Rows of the matrix from camera channels to linear sRGB, least squares over the training spectra at Y = 1. */
function fittedMatrix(channels: readonly Spectrum[]): readonly Xyz[] {
  const samples = trainingSpectra().map(({ spectrum, weight }) => {
    const y = tristimulus(spectrum)[1];
    const perY = spectrum.map((value) => value / y);
    const raw = channels.map((one) => dot(perY, one)) as unknown as Xyz;
    return { raw, wanted: linearSrgb(tristimulus(perY)), weight };
  });
  const sum = (of: (sample: (typeof samples)[number]) => number) =>
    samples.reduce((total, sample) => total + sample.weight * of(sample), 0);
  const normalRows = [0, 1, 2].map((i) => [0, 1, 2].map((j) => sum((s) => s.raw[i] * s.raw[j])) as unknown as Xyz);
  return [0, 1, 2].map((k) => {
    const right = [0, 1, 2].map((i) => sum((s) => s.raw[i] * s.wanted[k])) as unknown as Xyz;
    return solve3(normalRows, right);
  });
}

/** A camera that sees as the standard observer does, or one with its own sensitivities and a fitted matrix. */
export function colourResponse(kind: CameraColour): ColourResponse {
  if (kind === 'colorimetric') return (spectrum) => linearSrgb(tristimulus(spectrum));
  const channels = sensitivities[kind];
  const matrix = fittedMatrix(channels);
  return (spectrum) => {
    const raw = channels.map((one) => dot(spectrum, one));
    return matrix.map((row) => dot(row, raw)) as unknown as Xyz;
  };
}
