import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { PhotoId } from '../../../core/contract/bench';
import type { Match } from '../../../core/contract/comparison';
import type { Figure } from '../../../core/contract/figure';
import { isMeasured, type MeasuredPhotoOnBench } from '../../state/bench-state';
import { showSameWindow } from '../../state/same-window';
import { useBench } from '../bench-context';
import { PlusMinus } from '../figure-view';
import type { ComparedPhotos } from './compared-photos';
import { TwoWindows } from './two-windows';

/** Photos of other windows, and the same photo laid a second time for its other window. */
function partnersOf(photo: MeasuredPhotoOnBench, all: readonly MeasuredPhotoOnBench[]): MeasuredPhotoOnBench[] {
  const isSamePhoto = (other: MeasuredPhotoOnBench): boolean =>
    other.reading.photos[0].sha256 === photo.reading.photos[0].sha256;
  return all.filter(
    (other) => other.id !== photo.id && (isSamePhoto(other) || !showSameWindow(other.reading, photo.reading)),
  );
}

function useMatch(one: PhotoId, other: PhotoId | undefined, key: string): Match | null {
  const bench = useBench();
  const [found, setFound] = useState<{ readonly key: string; readonly match: Match | null } | null>(null);
  useEffect(() => {
    let isWanted = true;
    const ask = async (): Promise<void> => {
      const match = other === undefined ? null : await bench.match(one, other);
      if (isWanted) setFound({ key, match });
    };
    void ask();
    return () => {
      isWanted = false;
    };
  }, [key]);
  return found?.key === key ? found.match : null;
}

/** One reason for several figures is said beside the first of them; the slots of the others are hatched all the same. */
const isSaidAbove = (rows: readonly (readonly [string, string, Figure, ...unknown[]])[], { reason }: Figure): boolean =>
  rows.some(([, , above]) => above.value === null && above.reason === reason);

/** Two windows of one photo have one name: their sizes tell them apart. */
function namesOf(one: MeasuredPhotoOnBench, two: MeasuredPhotoOnBench): readonly [string, string] {
  if (one.name !== two.name) return [one.name, two.name];
  const named = ({ name, reading: { outline } }: MeasuredPhotoOnBench): string =>
    `${name} (${outline.widthMm.toFixed(0)} × ${outline.heightMm.toFixed(0)} mm)`;
  return [named(one), named(two)];
}

/** How alike two windows of a unit are: luminance, colour, evenness; and how much light leaks where only one is lit. */
export function WindowsView({ photo }: ComparedPhotos): JSX.Element {
  const bench = useBench();
  const partners = partnersOf(photo, bench.state.value.photos.filter(isMeasured));
  const [chosen, setChosen] = useState<PhotoId | null>(null);
  const other = partners.find(({ id }) => id === chosen) ?? partners.at(0);
  const timeOf = ({ id, reading }: MeasuredPhotoOnBench): unknown => [id, reading.timingMs];
  const match = useMatch(photo.id, other?.id, JSON.stringify([timeOf(photo), other && timeOf(other)]));
  if (!other) {
    return (
      <div class="no-map tall">
        <span>
          Measure the unit’s other window: in a photo of its own, or in this photo laid on the bench once more with the
          outline set on that window.
        </span>
      </div>
    );
  }
  const [thisName, otherName] = namesOf(photo, other);
  const nameOf = (id: string | null): string => (id === photo.id ? thisName : otherName);
  const rows =
    match === null
      ? []
      : ([
          ['Luminance', 'dimmer over brighter', match.luminanceRatio, 100, '%', match.brighter === null ? 'cannot be told apart' : `${nameOf(match.brighter)} is brighter`],
          ['Colour difference', '10⁻³ u′v′', match.deltaUv, 1000, '', ''],
          ['Evenness', `points, ${otherName} less ${thisName}`, match.evennessDifference, 1, '', ''],
          ['Leak', 'light in the dark window, of the lit one’s', match.leak, 100, '%', ''],
        ] as const); // prettier-ignore
  const inNames = (figure: Figure): Figure =>
    figure.reason === undefined
      ? figure
      : { ...figure, reason: [photo, other].reduce((text, { id }) => text.replaceAll(id, nameOf(id)), figure.reason) };
  return (
    <>
      <label class="field against">
        {thisName} beside the window of
        <select value={other.id} onChange={(event) => setChosen(event.currentTarget.value)} data-beside>
          {partners.map((partner) => (
            <option key={partner.id} value={partner.id}>
              {namesOf(photo, partner)[1]}
            </option>
          ))}
        </select>
      </label>
      <TwoWindows
        windows={[
          { name: thisName, photo },
          { name: otherName, photo: other },
        ]}
        match={match}
      />
      <dl class="standing" data-match>
        {rows.map(([name, unit, figure, scale, sign, word], i) => (
          <>
            <dt>
              {name} <small>{unit}</small>
            </dt>
            <dd>
              <PlusMinus figure={inNames(figure)} scale={scale} /> {figure.value === null ? '' : sign}
            </dd>
            <dd class={figure.value === null ? 'word reason' : 'word'}>
              {figure.value !== null ? word : isSaidAbove(rows.slice(0, i), figure) ? '' : inNames(figure).reason}
            </dd>
          </>
        ))}
      </dl>
      <p class="plot-note">
        Two windows in one photo are compared best. Two photos are compared by their exposure, when camera and white
        balance are the same; where something stands against it, that is said.
      </p>
    </>
  );
}
