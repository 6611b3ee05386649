import type { JSX } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import type { MixDocument, MixLampEntry } from '../../../core/contract/lamp-advice';
import type { Reading } from '../../../core/contract/readings';
import type { AskedMix } from '../../advice-messages';
import {
  isVoltsWithoutLampWrong,
  isVoltsWrong,
  isWrong,
  ledFields,
  ledOf,
  supplyOf,
  usualLeds,
  type LedText,
  type SupplyText,
} from './led-form';
import { Refused } from './refused';
import { numberIn } from './number-in';
import { NumberField } from '../fields';
import { StepNote } from '../step-note';
import { useAdvice } from './use-advice';

const kelvinLimits = [1500, 6500] as const;
const usualFilamentK = 2400;
const series = ['E12', 'E24', 'E96'] as const;

/** Numbers of the form are those of the command line's table. */
const number = (value: number | null, digits = 3): string =>
  value === null ? '–' : String(Number(value.toPrecision(digits)));

function LedRow(props: {
  readonly led: LedText;
  readonly onChange: (led: LedText) => void;
  readonly onRemove: (() => void) | null;
}): JSX.Element {
  const { led, onChange, onRemove } = props;
  return (
    <fieldset class="led">
      <legend>
        <input
          aria-label="Name of the lamp"
          value={led.name}
          onInput={(event) => onChange({ ...led, name: event.currentTarget.value })}
        />
        {onRemove && (
          <button class="plain" onClick={onRemove}>
            Leave out
          </button>
        )}
      </legend>
      {ledFields.map(({ key, label, unit, limits }) => (
        <NumberField
          key={key}
          label={label}
          unit={unit}
          text={led[key]}
          isWrong={isWrong(led, key)}
          hint={`${limits[0]} to ${limits[1]}`}
          onChange={(text) => onChange({ ...led, [key]: text })}
        />
      ))}
    </fieldset>
  );
}

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
    </div>
  );
}

/** Options of the command line are controls here. */
const onScreen = (note: string): string =>
  note
    .replace('state --scale-dye when it is coloured', 'choose amber when it is coloured')
    .replace('No --current is given', 'No current is given')
    .replace('take --e-series E96', 'choose E96');

function Mixed({ document }: { readonly document: MixDocument }): JSX.Element {
  const { lamps, reached, missSteps, redPrintForecast: red, refusal, notes, cautions } = document;
  return (
    <>
      {refusal && <Refused refusal={refusal} />}
      <ResistorTable lamps={lamps} />
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

/** Two or three LEDs mixed to a filament's glow: data sheets in, resistors out. */
export function LampMix({ reference }: { readonly reference: Reading | null }): JSX.Element {
  const [leds, setLeds] = useState(usualLeds);
  const [supply, setSupply] = useState<SupplyText>({ kind: 'dc', volts: '12', voltsWithoutLamp: '', hz: '50' });
  const [kelvin, setKelvin] = useState(String(usualFilamentK));
  const [isByReference, setIsByReference] = useState(true);
  const [isDyed, setIsDyed] = useState(false);
  const [current, setCurrent] = useState('');
  const [eSeries, setESeries] = useState<(typeof series)[number]>('E24');
  const glow = reference?.colour;
  const referenceGlow =
    glow?.uPrime.value != null && glow.vPrime.value !== null
      ? { uPrime: glow.uPrime.value, vPrime: glow.vPrime.value }
      : null;
  const targetGlow = isByReference ? referenceGlow : null;
  // Beside a photo's glow the field is not shown: what is left in it cannot be in the way.
  const filamentK = numberIn(kelvin, kelvinLimits) ?? (targetGlow ? usualFilamentK : null);
  const currentMa = current.trim() === '' ? null : numberIn(current, [0.1, 5000]);
  const isCurrentWrong = current.trim() !== '' && currentMa === null;
  const asks = useMemo((): AskedMix | null => {
    const [read, feed] = [leds.map(ledOf), supplyOf(supply)];
    const known = read.filter((led) => led !== null);
    if (known.length < read.length || feed === null || filamentK === null || isCurrentWrong) return null;
    return {
      leds: known.map((led, i) => ({ ...led, name: known.findIndex(({ name }) => name === led.name) < i ? `${led.name} ${i + 1}` : led.name })),
      supply: feed,
      targetK: targetGlow ? null : filamentK,
      targetGlow,
      isDyed,
      currentMa,
      series: eSeries,
      filamentK,
    }; // prettier-ignore
  }, [leds, supply, filamentK, targetGlow, isDyed, currentMa, isCurrentWrong, eSeries]);
  const { answer, refusal } = useAdvice('mix', asks, null);
  const setLed = (index: number, led: LedText): void => setLeds(leds.map((old, i) => (i === index ? led : old)));
  return (
    <section class="lamp-mix" aria-label="Lamp mix and resistors">
      <h2>Lamp mix and resistors</h2>
      <p class="hint">The values are those of usual parts: put in what your data sheets say.</p>
      <div class="leds">
        {leds.map((led, i) => (
          <LedRow
            key={i}
            led={led}
            onChange={(changed) => setLed(i, changed)}
            onRemove={leds.length > 2 ? () => setLeds(leds.filter((_, other) => other !== i)) : null}
          />
        ))}
      </div>
      {leds.length < 3 && (
        <p>
          <button class="plain" onClick={() => setLeds([...leds, { ...usualLeds[0], name: 'third' }])}>
            Add a third lamp
          </button>
        </p>
      )}
      <div class="mix-fields">
        <label class="field">
          Supply
          <select
            value={supply.kind}
            onChange={(event) => setSupply({ ...supply, kind: event.currentTarget.value as SupplyText['kind'] })}
          >
            <option value="dc">direct (DC)</option>
            <option value="ac">winding (AC), bridge and capacitor</option>
          </select>
        </label>
        {supply.kind === 'ac' && (
          <label class="field">
            Mains
            <select
              value={supply.hz}
              onChange={(event) => setSupply({ ...supply, hz: event.currentTarget.value as SupplyText['hz'] })}
            >
              <option value="50">50 Hz</option>
              <option value="60">60 Hz</option>
            </select>
          </label>
        )}
        <NumberField
          label="Volts with the old lamp in"
          unit="V"
          text={supply.volts}
          isWrong={isVoltsWrong(supply)}
          hint={supply.kind === 'dc' ? '1 to 60 V' : '2 to 42 V'}
          onChange={(volts) => setSupply({ ...supply, volts })}
        />
        <NumberField
          label="Volts with it out"
          unit="V"
          text={supply.voltsWithoutLamp}
          isWrong={isVoltsWithoutLampWrong(supply)}
          hint="1 to 60 V"
          onChange={(voltsWithoutLamp) => setSupply({ ...supply, voltsWithoutLamp })}
        />
        <NumberField
          label="Current of the strongest string"
          unit="mA"
          text={current}
          isWrong={isCurrentWrong}
          hint="0.1 to 5000 mA"
          onChange={setCurrent}
        />
        <label class="field">
          Resistor values
          <select value={eSeries} onChange={(event) => setESeries(event.currentTarget.value as typeof eSeries)}>
            {series.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        </label>
        {referenceGlow && (
          <label class="field">
            Target
            <select
              value={isByReference ? 'reference' : 'kelvin'}
              onChange={(event) => setIsByReference(event.currentTarget.value === 'reference')}
            >
              <option value="reference">glow of {reference?.name}</option>
              <option value="kelvin">a filament lamp</option>
            </select>
          </label>
        )}
        {targetGlow === null && (
          <NumberField
            label="Filament lamp of"
            unit="K"
            text={kelvin}
            isWrong={filamentK === null}
            hint="1500 to 6500 K"
            onChange={setKelvin}
          />
        )}
        <label class="field">
          Scale
          <select value={isDyed ? 'amber' : 'clear'} onChange={(event) => setIsDyed(event.currentTarget.value === 'amber')}>
            <option value="clear">clear or cream</option>
            <option value="amber">dyed amber</option>
          </select>
        </label>
      </div>
      {refusal ? (
        <Refused refusal={refusal} />
      ) : answer ? (
        <Mixed document={answer} />
      ) : (
        <p class="hint" role="status">
          {asks === null ? 'Correct what is marked: then the resistors are worked out.' : 'The mix is being worked out.'}
        </p>
      )}
    </section>
  ); // prettier-ignore
}
