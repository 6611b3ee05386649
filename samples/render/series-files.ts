import { type Sample, samples } from './sample-list';
import { lampsOf, seriesHead, shotOf } from './series-parts';

function sampleOf(file: string): Sample {
  const found = samples.find((one) => one.file === file);
  if (!found) throw new RangeError(`no sample is called ${file}`);
  return found;
}

function series(windowFrom: string, referenceFile: string | null, trials: readonly [string, string][]): object {
  return {
    ...seriesHead(sampleOf(windowFrom)),
    ...(referenceFile === null ? {} : { reference: shotOf(sampleOf(referenceFile)) }),
    trials: trials.map(([name, file]) => {
      const one = sampleOf(file);
      return { name, ...shotOf(one), lamps: lampsOf(one) };
    }),
  };
}

/** The series files by name. */
export function seriesFiles(): Record<string, object> {
  return {
    't60.series.json': series('t60-filament.jpg', 't60-filament.jpg', [
      ['Bare amber LEDs, 8 mm behind', 't60-amber-bare.jpg'],
      ['Bare warm-white LEDs, 8 mm behind', 't60-warm-white-bare.jpg'],
      ['Warm white behind tracing paper', 't60-warm-white-diffuser.jpg'],
      ['Warm white with tape over the spots', 't60-warm-white-shade.jpg'],
      ['Warm white further back, turned inwards', 't60-warm-white-moved.jpg'],
      ['Red and green mixed', 't60-red-green.jpg'],
      ['Cool white, 12 mm behind', 't60-cool-white.jpg'],
    ]),
    't60-linear.series.json': series('t60-filament-linear.png', 't60-filament-linear.png', [
      ['Bare warm-white LEDs, 8 mm behind', 't60-warm-white-bare-linear.png'],
      ['Warm white behind tracing paper', 't60-warm-white-diffuser-linear.tif'],
    ]),
    't60-camera.series.json': series('t60-filament.jpg', 't60-filament.jpg', [
      ['Tracing paper, seen from the side', 't60-tilted.jpg'],
      ['Further back, camera held upright', 't60-turned.jpg'],
      ['Bare warm white, wide colours', 't60-wide-colour.jpg'],
      ['Further back, small photo', 't60-small.jpg'],
      ['Bare warm white, overexposed', 't60-clipped.jpg'],
      ['Tracing paper, underexposed', 't60-dark.jpg'],
    ]),
    'm4.series.json': series('m4-filament.jpg', 'm4-filament.jpg', [
      ['Warm white at the left side', 'm4-one-sided.jpg'],
      ['Amber at the top', 'm4-amber.jpg'],
      ['Warm white at the left side, linear', 'm4-one-sided-linear.png'],
    ]),
    'both.series.json': series('panel-both.jpg', null, [['Both windows, warm white', 'panel-both.jpg']]),
    't60-black.series.json': series('t60-black-even.jpg', null, [
      ['Black dial, evenly lit', 't60-black-even.jpg'],
      ['Black dial, a bare LED behind 96', 't60-black-spot.jpg'],
    ]),
    't60-small.series.json': series('t60-small-windows.jpg', null, [
      ['Tuning meter and band window, warm white', 't60-small-windows.jpg'],
    ]),
  };
}
