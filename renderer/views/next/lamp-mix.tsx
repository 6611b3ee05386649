import type { JSX } from 'preact';
import { missing } from '../../../core/contract/figure';
import type { PhotoRole } from '../../../core/contract/unit-record';
import type { MeasuredPhotoOnBench, PhotoOnBench } from '../../state/bench-state';
import { lampToAdd, resistorSeries, withoutLamp, type LedText, type MixText } from '../../state/mix-form';
import { mixedTries } from '../../state/mixed-tries';
import type { PlannedMix } from '../../state/plans';
import { useBench } from '../bench-context';
import { useBook } from '../book-context';
import { NumberField } from '../fields';
import { isVoltsWithoutLampWrong, isVoltsWrong, isWrong, ledFields, namesApart } from './led-form';
import { MixAnswer } from './mix-answer';
import { MixTries } from './mix-tries';
import { readMix } from './read-mix';
import { Refused } from './refused';
import { photoOfTry } from './try-form';
import { useAdvice } from './use-advice';

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

interface LampMixProps {
  readonly photo: PhotoOnBench;
  /** The photo of the window by its filament lamps. */
  readonly reference: MeasuredPhotoOnBench | null;
  /** Measured photos of the window, newest first. */
  readonly photos: readonly MeasuredPhotoOnBench[];
  readonly roleOf: (photo: PhotoOnBench) => PhotoRole;
}

const targetRefusedId = 'target-refused';

/** The field that a refusal speaks of, where it is not the data sheets and the supply. */
const fieldOf: Readonly<Record<string, 'target' | 'try'>> = { COLOUR_CUT_SHORT: 'target', MEASURED_OUTSIDE: 'try' };

/** Two or three LEDs mixed to a filament's glow: data sheets and what the last tries showed in, resistors out. @rule SC21, SC37 */
export function LampMix({ photo, reference, photos, roleOf }: LampMixProps): JSX.Element {
  const bench = useBench();
  const { mixForm, plans } = useBook();
  const text = mixForm.text.value;
  const { leds, supply, kelvin, isByReference, isDyed, current, series } = text;
  const put = (change: Partial<MixText>): void => mixForm.put(change);
  const setLed = (index: number, led: LedText): void => put({ leds: leds.map((old, i) => (i === index ? led : old)) });
  const lamps = namesApart(leds);
  const tries = photos.filter(({ id }) => id !== reference?.id);
  const planned = mixedTries(plans.all.value, photos, roleOf, lamps);
  const read = readMix(text, { reference, tries }, planned);
  const { asks, told } = read;
  const { answer, refusal, isBehind } = useAdvice('mix', asks, null);
  const saidAt = (answer?.refusal && fieldOf[answer.refusal.code]) ?? null;
  const isTargetRefused = saidAt === 'target';
  const plan = (mix: PlannedMix, what: string): void => {
    const from = photoOfTry(told.last, tries) ?? photo;
    const evenness = missing('a mix of lamps says nothing of evenness');
    const id = crypto.randomUUID();
    plans.put({ id, photo: from.id, photoName: from.name, what, evenness, mix, after: photos[0].id, filedIn: null });
    // The next photo is the next try.
    put({ last: null, before: null });
    bench.say(`Planned: ${what}`);
  };
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
            onRemove={leds.length > 2 ? () => put(withoutLamp(text, i)) : null}
          />
        ))}
      </div>
      {leds.length < 3 && (
        <p>
          <button class="plain" onClick={() => put({ leds: [...leds, lampToAdd(leds)] })}>
            Add a third lamp
          </button>
        </p>
      )}
      <div class="mix-fields">
        <label class="field">
          Supply
          <select
            value={supply.kind}
            onChange={(event) => put({ supply: { ...supply, kind: event.currentTarget.value as MixText['supply']['kind'] } })}
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
              onChange={(event) => put({ supply: { ...supply, hz: event.currentTarget.value as MixText['supply']['hz'] } })}
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
          onChange={(volts) => put({ supply: { ...supply, volts } })}
        />
        <NumberField
          label="Volts with it out"
          unit="V"
          text={supply.voltsWithoutLamp}
          isWrong={isVoltsWithoutLampWrong(supply)}
          hint="1 to 60 V"
          onChange={(voltsWithoutLamp) => put({ supply: { ...supply, voltsWithoutLamp } })}
        />
        <NumberField
          label="Current of the strongest string"
          unit="mA"
          text={current}
          isWrong={read.isCurrentWrong}
          hint="0.1 to 5000 mA"
          onChange={(typed) => put({ current: typed })}
        />
        <label class="field">
          Resistor values
          <select value={series} onChange={(event) => put({ series: event.currentTarget.value as MixText['series'] })}>
            {resistorSeries.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        </label>
        {read.hasTargetPhoto && (
          <label class="field">
            Target
            <select
              value={isByReference ? 'reference' : 'kelvin'}
              aria-invalid={isTargetRefused}
              aria-describedby={isTargetRefused ? targetRefusedId : undefined}
              onChange={(event) => put({ isByReference: event.currentTarget.value === 'reference' })}
            >
              <option value="reference">glow of {reference?.name}</option>
              <option value="kelvin">a filament lamp</option>
            </select>
          </label>
        )}
        {read.isTargetStated && (
          <NumberField
            label="Filament lamp of"
            unit="K"
            text={kelvin}
            isWrong={read.isKelvinWrong}
            hint="1500 to 6500 K"
            onChange={(typed) => put({ kelvin: typed })}
          />
        )}
        <label class="field">
          Scale
          <select value={isDyed ? 'amber' : 'clear'} onChange={(event) => put({ isDyed: event.currentTarget.value === 'amber' })}>
            <option value="clear">clear or cream</option>
            <option value="amber">dyed amber</option>
          </select>
        </label>
      </div>
      {isTargetRefused && answer?.refusal && <Refused refusal={answer.refusal} id={targetRefusedId} />}
      <MixTries
        told={told}
        last={read.last}
        before={read.before}
        lamps={lamps}
        photos={tries}
        refusal={saidAt === 'try' ? (answer?.refusal ?? null) : null}
        onChange={put}
        planned={planned}
      />
      {refusal ? (
        <Refused refusal={refusal} />
      ) : answer ? (
        <MixAnswer document={answer} isSaidAtField={saidAt !== null} isBehind={isBehind} onPlan={plan} />
      ) : (
        <p class="hint" role="status">
          {asks === null ? 'Correct what is marked: then the resistors are worked out.' : 'The mix is being worked out.'}
        </p>
      )}
    </section>
  ); // prettier-ignore
}
