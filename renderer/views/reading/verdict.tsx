import type { JSX } from 'preact';
import type { Figure } from '../../../core/contract/figure';
import type { Reading } from '../../../core/contract/readings';
import { saveFiles } from '../../link/save-files';
import type { PhotoOnBench } from '../../state/bench-state';
import { useBench } from '../bench-context';
import { colourAxis, evennessAxis, LeadingFigure, PlusMinus, redPrintAxis } from '../figure-view';
import { GateList } from '../gate-list';
import { SizeOrigin } from '../size-origin';
import { StepNote } from '../step-note';
import { verdictLine } from './verdict-line';

interface LeadingProps {
  readonly reading: Reading;
  readonly isWaiting: boolean;
}

function RedPrint({ reading: { redPrint }, isWaiting }: LeadingProps): JSX.Element {
  const { index, indexAgainst, redness, words } = redPrint;
  const shared = { name: 'Red print', words, isWaiting };
  if (index.value !== null) {
    const unit = indexAgainst === 'reference' ? '% of filament' : '% of a usual filament';
    return <LeadingFigure {...shared} unit={unit} figure={index} axis={redPrintAxis} />;
  }
  // Without a reference there is no per cent; the redness itself can still be read, and compared by eye.
  if (redness.value !== null) {
    return <LeadingFigure {...shared} unit="redness, × 100" figure={redness} scale={100} axis={null} />;
  }
  return <LeadingFigure {...shared} unit="% of filament" figure={redness} axis={null} />;
}

function Colour({ reading: { colour }, isWaiting }: LeadingProps): JSX.Element {
  const under = (
    <>
      <div class="under">
        <span>
          <PlusMinus figure={colour.cctK} /> K
        </span>
        <span>
          Duv <PlusMinus figure={colour.duv} />
        </span>
      </div>
      <StepNote words={colour.verdict} />
    </>
  );
  if (colour.toReferenceUv.value !== null) {
    return (
      <LeadingFigure
        name="Colour distance"
        unit="10⁻³ u′v′ from filament"
        figure={colour.toReferenceUv}
        scale={1000}
        axis={colourAxis}
        words={colour.verdict}
        under={under}
        isWaiting={isWaiting}
      />
    );
  }
  const figure = colour.cctK.value === null ? colour.uPrime : colour.cctK;
  const isCct = figure === colour.cctK;
  return (
    <LeadingFigure
      name="Colour"
      unit={isCct ? 'K' : 'u′, × 1000'}
      figure={figure}
      scale={isCct ? 1 : 1000}
      axis={null}
      // The temperature itself stands beside the words already.
      words={isCct ? colour.verdict.replace(/: a glow of about \d+ K/, '') : colour.verdict}
      isWaiting={isWaiting}
    />
  );
}

const classicRows = (reading: Reading): readonly (readonly [string, Figure, number, string])[] => [
  ['darkest over brightest', reading.evenness.minOverMax, 1, ''],
  ['5th over 95th percentile', reading.evenness.p5OverP95, 1, ''],
  ['coefficient of variation', reading.evenness.coefficientOfVariation, 100, '%'],
  ['nine points, darkest over brightest', reading.evenness.ninePoint.minOverMax, 1, ''],
  ['steepest slope', reading.evenness.steepestPercentPerMm, 1, '%/mm'],
  ['left over right', reading.evenness.leftOverRight, 1, ''],
  ['top over bottom', reading.evenness.topOverBottom, 1, ''],
  ['mean of the glow, of full scale', reading.luminance.glowMean, 1, ''],
  ['red print, redness', reading.redPrint.redness, 1, ''],
  ['red print, contrast', reading.redPrint.luminanceContrast, 1, ''],
  ['red print, ΔE₀₀ to its ground', reading.redPrint.deltaE00, 1, ''],
  ['u′ of the glow', reading.colour.uPrime, 1, ''],
  ['v′ of the glow', reading.colour.vPrime, 1, ''],
  ['spread of colour, u′v′', reading.colour.spreadUv, 1, ''],
];

function ClassicFigures({ reading }: { readonly reading: Reading }): JSX.Element {
  return (
    <details>
      <summary>All figures</summary>
      <dl class="small-figures">
        {classicRows(reading).map(([name, figure, scale, unit]) => (
          <>
            <dt>{name}</dt>
            <dd>
              <PlusMinus figure={figure} scale={scale} /> {unit}
            </dd>
          </>
        ))}
      </dl>
    </details>
  );
}

/** The score waits for a better outline: one key leads there. */
function isAboutOutline({ evenness, gates }: Reading): boolean {
  return (
    evenness.score.value === null && gates.some(({ code, level }) => level === 'refuse' && code.startsWith('OUTLINE'))
  );
}

/** The verdict column: one plain sentence, three leading figures, the checks, the way on. */
export function Verdict({ photo, reading }: { readonly photo: PhotoOnBench; readonly reading: Reading }): JSX.Element {
  const bench = useBench();
  const isWaiting = photo.status.kind !== 'measured';
  const save = async (what: 'json' | 'csv' | 'pictures'): Promise<void> =>
    saveFiles(await bench.exportReading(photo.id, what));
  return (
    <aside class="side verdict" aria-label="Verdict">
      <h2>{verdictLine(reading)}</h2>
      {isWaiting && (
        <p class="hint" role="status">
          Being measured again: the figures below are those of before.
        </p>
      )}
      <LeadingFigure
        name="Evenness"
        unit="of 100"
        figure={reading.evenness.score}
        axis={evennessAxis}
        words={reading.evenness.words}
        isWaiting={isWaiting}
      />
      <RedPrint reading={reading} isWaiting={isWaiting} />
      <Colour reading={reading} isWaiting={isWaiting} />
      <section class="leading" aria-label="Photo checks">
        <h3>Photo checks</h3>
        <GateList gates={reading.gates} />
        <SizeOrigin photo={photo} />
      </section>
      <ClassicFigures reading={reading} />
      <div class="last">
        {isAboutOutline(reading) && (
          <button class="go" onClick={() => bench.goTo('outline')}>
            To the outline <kbd>2</kbd>
          </button>
        )}
        <div class="row">
          <span class="hint">Save as</span>
          <button onClick={() => void save('json')} disabled={isWaiting}>
            JSON
          </button>
          <button onClick={() => void save('csv')} disabled={isWaiting}>
            CSV
          </button>
          <button onClick={() => void save('pictures')} disabled={isWaiting}>
            Pictures
          </button>
        </div>
      </div>
    </aside>
  );
}
