import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { MappedWindow } from '../../../core/contract/measure';
import { shortFigure } from '../../../core/display/figure-text';
import { mountWords } from '../../../core/display/shade-words';
import { saveFiles } from '../../link/save-files';
import type { PhotoOnBench } from '../../state/bench-state';
import { useBench } from '../bench-context';
import { Refused } from './refused';
import { numberIn } from './number-in';
import { NumberField } from '../fields';
import { Slider } from './slider';
import type { Tried } from './tools';
import { useAdvice } from './use-advice';

/** As the command line has it. */
const gapLimits = [0, 20] as const;

interface ShadeToolProps {
  readonly photo: PhotoOnBench;
  readonly entry: MappedWindow;
  readonly onTried: (tried: Tried | null) => void;
}

/** A printed shade: its gap, its strength, what it would do, and its page. */
export function ShadeTool({ photo, entry, onTried }: ShadeToolProps): JSX.Element {
  const bench = useBench();
  const [gap, setGap] = useState('');
  const [strength, setStrength] = useState(100);
  const [isMirrored, setIsMirrored] = useState(false);
  const [isPrinting, setIsPrinting] = useState(false);
  const gapMm = numberIn(gap, gapLimits);
  const isWrong = gap.trim() !== '' && gapMm === null;
  const { answer, refusal, isBehind } = useAdvice('shade', isWrong ? null : { gapMm, strength: strength / 100 }, entry);
  useEffect(() => {
    const what = `shade at ${strength} % strength${gapMm === null ? '' : `, ${gapMm} mm behind the scale`}`;
    onTried(answer ? { forecast: answer, evenness: answer.evenness, what, isBehind } : null);
  }, [answer, isBehind]);
  const print = async (form: 'pdf' | 'svg'): Promise<void> => {
    setIsPrinting(true);
    saveFiles(await bench.printShade(photo.id, { gapMm, strength: strength / 100, isMirrored, form }));
    setIsPrinting(false);
  };
  const isPrintable = answer !== null && (answer.refusal === null || gapMm === null) && !isBehind;
  return (
    <>
      <div class="try-sliders">
        <NumberField
          label="Gap between shade and scale"
          unit="mm"
          text={gap}
          isWrong={isWrong}
          hint="0 to 20 mm, as 1.5"
          onChange={setGap}
        />
        <Slider
          label="Strength"
          unit="%"
          value={strength}
          from={10}
          to={100}
          step={10}
          digits={0}
          onChange={setStrength}
        />
      </div>
      {refusal && <Refused refusal={refusal} />}
      {answer?.refusal && <Refused refusal={answer.refusal} />}
      {answer && (
        <p class="hint">
          It takes {(100 * answer.lightLoss).toFixed(0)} % of the light.
          {gapMm !== null &&
            ` The forecast is for a shade on its corner marks; at worst ${shortFigure(answer.atWorst)}, ${mountWords[answer.worstMount]}.`}
        </p>
      )}
      <p class="row">
        <label class="row">
          <input
            type="checkbox"
            checked={isMirrored}
            onChange={(event) => setIsMirrored(event.currentTarget.checked)}
          />
          mirrored, for ink on the side away from you
        </label>
      </p>
      <p class="row">
        <button disabled={!isPrintable || isPrinting} onClick={() => void print('pdf')} data-print="pdf">
          {isPrinting ? 'Making the page' : 'Print shade (PDF)'}
        </button>
        <button disabled={!isPrintable || isPrinting} onClick={() => void print('svg')} data-print="svg">
          SVG
        </button>
        <span class="hint">at 100 per cent: the ruler on the page must measure 100 mm</span>
      </p>
    </>
  );
}
