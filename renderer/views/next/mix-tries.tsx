import type { JSX } from 'preact';
import type { ErrorEntry } from '../../../core/contract/readings';
import type { MeasuredPhotoOnBench } from '../../state/bench-state';
import { noTry, type MixText, type TryText } from '../../state/mix-form';
import { NumberField } from '../fields';
import { PlusMinus } from '../figure-view';
import { Refused } from './refused';
import { currentHint, isUvWrong, photoOfTry, uvHint, type ReadTry, type ToldTries } from './try-form';

interface TryFieldsProps {
  readonly id: 'last' | 'before';
  readonly legend: string;
  readonly told: TryText;
  readonly read: ReadTry;
  readonly isPlanned: boolean;
  readonly lamps: readonly string[];
  /** Those that may show it, newest first. */
  readonly photos: readonly MeasuredPhotoOnBench[];
  readonly planned: readonly TryText[];
  readonly currentsHint: string;
  readonly refusal: ErrorEntry | null;
  readonly onChange: (told: TryText) => void;
}

/** Colour and plus-minus as the photo was measured. */
function MeasuredGlow({ photo }: { readonly photo: MeasuredPhotoOnBench }): JSX.Element {
  const { uPrime, vPrime, outOfGamut } = photo.reading.colour;
  return (
    <p class="hint" data-try-glow>
      Measured: u′ <PlusMinus figure={uPrime} />, v′ <PlusMinus figure={vPrime} />
      {outOfGamut && ', outside the colour space of its file: it is at least this saturated'}.
    </p>
  );
}

function TryFields(props: TryFieldsProps): JSX.Element {
  const { id, legend, told, read, isPlanned, lamps, photos, planned, currentsHint, refusal, onChange } = props;
  const photo = photoOfTry(told, photos);
  const said = read.refusal ?? refusal;
  const choose = (value: string): void => {
    if (value === 'none') return onChange(noTry);
    if (value === 'typed') return onChange({ ...told, by: 'typed' });
    // The currents of a built mix come with its photo.
    const known = planned.find((one) => photoOfTry(one, photos)?.id === value);
    onChange(known ?? { ...told, by: { photo: value } });
  };
  return (
    <fieldset class="mix-try" data-try={id}>
      <legend>{legend}</legend>
      <div class="mix-fields">
        <label class="field">
          Photo of it
          <select
            value={photo?.id ?? (told.by === 'typed' ? 'typed' : 'none')}
            aria-invalid={said !== null}
            aria-describedby={said ? `${id}-refused` : undefined}
            onChange={(event) => choose(event.currentTarget.value)}
          >
            <option value="none">none yet</option>
            {photos.map(({ id: photoId, name }) => (
              <option key={photoId} value={photoId}>
                {name}
              </option>
            ))}
            <option value="typed">none here: type u′, v′</option>
          </select>
        </label>
        {told.by === 'typed' &&
          (['uPrime', 'vPrime'] as const).map((axis) => (
            <NumberField
              key={axis}
              label={axis === 'uPrime' ? 'u′ of the glow' : 'v′ of the glow'}
              unit=""
              text={told[axis]}
              isWrong={isUvWrong(told[axis])}
              hint={uvHint}
              onChange={(text) => onChange({ ...told, [axis]: text })}
            />
          ))}
        {told.by !== 'none' &&
          lamps.map((name, i) => (
            <NumberField
              key={i}
              label={`Current of ${name}`}
              unit="mA"
              text={told.currents[i] ?? ''}
              isWrong={read.areCurrentsWrong[i]}
              hint={currentsHint}
              onChange={(text) => onChange({ ...told, currents: lamps.map((_, k) => (k === i ? text : (told.currents[k] ?? ''))) })}
            />
          ))}
      </div>
      {photo && !read.refusal && <MeasuredGlow photo={photo} />}
      {isPlanned && (
        <p class="hint" data-try-planned>
          Filled in from its planned trial. If you measured the currents, put those in.
        </p>
      )}
      {said && <Refused refusal={said} id={`${id}-refused`} />}
    </fieldset>
  ); // prettier-ignore
}

interface MixTriesProps {
  readonly told: ToldTries;
  readonly last: ReadTry;
  readonly before: ReadTry;
  readonly lamps: readonly string[];
  readonly photos: readonly MeasuredPhotoOnBench[];
  readonly planned: readonly TryText[];
  /** Of the last try. */
  readonly refusal: ErrorEntry | null;
  readonly onChange: (change: Partial<MixText>) => void;
}

/** What the last try showed, and the one before it: the mix is corrected by them. @rule SC37 */
export function MixTries({
  told,
  last,
  before,
  lamps,
  photos,
  planned,
  refusal,
  onChange,
}: MixTriesProps): JSX.Element {
  const photo = photoOfTry(told.last, photos);
  const areCurrentsNeeded = told.before.by !== 'none';
  const currentsHint = areCurrentsNeeded
    ? `Needed beside the try before: ${currentHint}`
    : `${currentHint}, of each string`;
  const shared = { lamps, planned, currentsHint };
  return (
    <div class="mix-tries">
      <h3>Corrected by what was built</h3>
      <p class="hint">
        Lamps and cameras are never quite as the data sheets say. Build the mix, photograph it as the target was, and let its photo
        correct the currents.
      </p>
      <TryFields
        {...shared}
        id="last"
        legend="The last try"
        told={told.last}
        read={last}
        isPlanned={told.isLastPlanned}
        photos={photos}
        refusal={refusal}
        onChange={(last) => onChange({ last })}
      />
      {told.last.by !== 'none' && (
        <TryFields
          {...shared}
          id="before"
          legend="The try before it, if there was one"
          told={told.before}
          read={before}
          isPlanned={told.isBeforePlanned}
          photos={photos.filter(({ id }) => id !== photo?.id)}
          refusal={null}
          onChange={(before) => onChange({ before })}
        />
      )}
    </div>
  ); // prettier-ignore
}
