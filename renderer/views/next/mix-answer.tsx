import type { JSX } from 'preact';
import type { MixDocument, MixLampEntry } from '../../../core/contract/lamp-advice';
import { triedWords } from '../../../core/display/tried-words';
import type { PlannedMix } from '../../state/plans';
import { StepNote } from '../step-note';
import { Refused } from './refused';

/** Numbers of the form are those of the command line's table. */
const number = (value: number | null, digits = 3): string =>
  value === null ? '–' : String(Number(value.toPrecision(digits)));

function ResistorTable({ lamps }: { readonly lamps: readonly MixLampEntry[] }): JSX.Element {
  const heads = ['mA', 'exact Ω', 'buy Ω', 'mA then', 'at +10 % supply', 'mW', 'rated mW', 'drop', 'light'];
  return (
    <div class="wide-table" tabIndex={0} role="group" aria-label="Resistors">
      <table data-resistors>
        <thead>
          <tr>
            <th>String</th>
            {heads.map((head) => (
              <th key={head} class="number">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lamps.map((lamp) => (
            <tr key={lamp.name}>
              <td>{lamp.name}</td>
              <td class="number">{number(lamp.currentMa)}</td>
              <td class="number">{number(lamp.resistorOhm, 4)}</td>
              <td class="number">
                <b>{number(lamp.nearestOhm, 6)}</b>
              </td>
              <td class="number">{number(lamp.currentWithNearestMa)}</td>
              <td class="number">{number(lamp.currentAtSupplyPlus10Ma)}</td>
              <td class="number">{number(lamp.resistorMw)}</td>
              <td class="number">{number(lamp.ratedMw)}</td>
              <td class="number">{lamp.dropShare === null ? '–' : `${(100 * lamp.dropShare).toFixed(0)} %`}</td>
              <td class="number">{(100 * lamp.luminanceShare).toFixed(0)} %</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="hint">
        mA then: with the resistor to buy. Drop: the resistor’s share of the volts; light: the string’s share of the
        light.
      </p>
    </div>
  );
}

const factorWords = (lamps: readonly MixLampEntry[], factors: readonly number[]): string =>
  lamps.map(({ name }, i) => `${name} × ${factors[i].toFixed(2)}`).join(', ');

/** What its resistors let flow; null while not every string has one. */
function plannedMix(lamps: readonly MixLampEntry[]): PlannedMix | null {
  const currentsMa = lamps.flatMap(({ currentWithNearestMa }) => currentWithNearestMa ?? []);
  const resistors = lamps.flatMap(({ nearestOhm, ratedMw }) =>
    nearestOhm === null ? [] : { ohm: nearestOhm, ratedMw },
  );
  if (currentsMa.length < lamps.length || resistors.length < lamps.length) return null;
  return { lamps: lamps.map(({ name }) => name), currentsMa, resistors };
}

const mixWords = (lamps: readonly MixLampEntry[]): string =>
  `mix: ${lamps.map((one) => `${one.name} ${number(one.nearestOhm, 6)} Ω, ${number(one.currentWithNearestMa)} mA`).join('; ')}`;

/** Options of the command line are controls here. */
const onScreen = (note: string): string =>
  note
    .replace('state --scale-dye when it is coloured', 'choose amber when it is coloured')
    .replace('No --current is given', 'No current is given')
    .replace('take --e-series E96', 'choose E96');

interface MixAnswerProps {
  readonly document: MixDocument;
  /** The refusal stands at its field. */
  readonly isSaidAtField: boolean;
  /** The form has been changed since. */
  readonly isBehind: boolean;
  /** Keeps the mix as a planned trial. */
  readonly onPlan: (mix: PlannedMix, what: string) => void;
}

/** What came of a mix: resistors, colour, how far the last try was, notes and cautions. */
export function MixAnswer({ document, isSaidAtField, isBehind, onPlan }: MixAnswerProps): JSX.Element {
  const { lamps, reached, missSteps, redPrintForecast: red, refusal, tried, correction, notes, cautions } = document;
  const mix = plannedMix(lamps);
  return (
    <>
      {refusal && !isSaidAtField && <Refused refusal={refusal} />}
      {tried && (
        <p data-tried>
          The last try lay <b>{triedWords(tried)}</b> from the target.
          {correction && ` Against the currents of the try: ${factorWords(lamps, correction.factors)}.`}
        </p>
      )}
      <ResistorTable lamps={lamps} />
      {mix && (
        <p class="row">
          <button disabled={isBehind} onClick={() => onPlan(mix, mixWords(lamps))} data-plan-mix>
            Keep as planned trial
          </button>
          <span class="hint">Its photo, when it comes, corrects the mix: photo and currents are then filled in above.</span>
        </p>
      )}
      <p>
        The glow would be u′ {reached.uPrime.toFixed(4)}, v′ {reached.vPrime.toFixed(4)}
        {reached.cctK === null ? '' : `, ${reached.cctK.toFixed(0)} K`}: {missSteps.toFixed(1)} steps from the target.
        {red && ` Red print ${red.index.toFixed(0)} % of the filament's (${red.low.toFixed(0)} to ${red.high.toFixed(0)}).`}
      </p>
      <StepNote words="steps from the target" />
      <ul class="notes">
        {notes.map((note) => (
          <li key={note}>{onScreen(note)}</li>
        ))}
      </ul>
      <div class="caution" data-mix-cautions>
        <b>Before you solder.</b>
        <ul>
          {cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </div>
    </>
  ); // prettier-ignore
}
