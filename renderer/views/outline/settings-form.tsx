import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { PhotoOnBench, ReadingSettings } from '../../state/bench-state';
import { mayShowSameWindow } from '../../state/same-window';
import { withSize } from '../../state/settings';
import { useBench } from '../bench-context';
import { Choice, LengthField } from '../fields';
import { SizeOrigin } from '../size-origin';
import { lightWords, printWords, roomWords } from '../words';
import { lengthOfText } from './draft';

/** A side of the window; what is typed counts when the field is left. */
function SideField(props: {
  readonly label: string;
  readonly value: number | null;
  readonly onChange: (value: number) => void;
}): JSX.Element {
  const { label, value, onChange } = props;
  const shown = value === null ? '' : String(Number(value.toFixed(1)));
  const [text, setText] = useState(shown);
  useEffect(() => setText(shown), [shown]);
  const leave = (typed: string): void => {
    const length = lengthOfText(typed);
    if (length !== null) onChange(length);
  };
  return <LengthField label={label} text={text} onChange={setText} onLeave={leave} />;
}

/** The window's size, and that it may be left out. It goes to all photos of the window that have none yet. */
export function SizeFields({ photo }: { readonly photo: PhotoOnBench }): JSX.Element {
  const bench = useBench();
  const { sizeMm } = photo.settings.window;
  const outline = photo.reading?.outline;
  const [typed, setTyped] = useState<{ widthMm: number | null; heightMm: number | null }>({
    widthMm: null,
    heightMm: null,
  });
  useEffect(() => setTyped({ widthMm: null, heightMm: null }), [photo.id, sizeMm]);
  const widthMm = typed.widthMm ?? sizeMm?.widthMm ?? null;
  const heightMm = typed.heightMm ?? sizeMm?.heightMm ?? null;
  const set = (change: { widthMm?: number; heightMm?: number }): void => {
    const next = { widthMm, heightMm, ...change };
    setTyped(next);
    if (next.widthMm === null || next.heightMm === null) return;
    const size = { widthMm: next.widthMm, heightMm: next.heightMm };
    const others = bench.state.value.photos.filter((other) => mayShowSameWindow(other, photo));
    const what = `size ${size.widthMm} × ${size.heightMm} mm`;
    bench.changeAll([photo.id, ...others.map(({ id }) => id)], what, (settings, id) =>
      withSize(
        settings,
        size,
        settings.window.sizeMm ?? bench.photo(id)?.reading?.outline ?? size,
        id === photo.id ? null : photo.id,
      ),
    );
  };
  return (
    <>
      <div class="fields">
        <SideField label="Width, by caliper" value={widthMm} onChange={(value) => set({ widthMm: value })} />
        <SideField label="Height" value={heightMm} onChange={(value) => set({ heightMm: value })} />
      </div>
      <p class="hint">
        {sizeMm
          ? 'Places and slopes are in true millimetres.'
          : `May be left out: the score hardly depends on it. Taken as ${outline ? `${outline.widthMm.toFixed(0)} × ${outline.heightMm.toFixed(0)}` : '60'} mm.`}
      </p>
      <SizeOrigin photo={photo} />
    </>
  );
}

/** Kind of light, print and room: what a photo cannot tell by itself. */
export function SceneFields({ photo }: { readonly photo: PhotoOnBench }): JSX.Element {
  const bench = useBench();
  const change = (what: string, part: Partial<ReadingSettings>): void =>
    bench.changeSettings(photo.id, what, (settings) => ({ ...settings, ...part }));
  const { light, room, window } = photo.settings;
  return (
    <>
      <Choice
        label="Kind of light"
        value={light}
        words={lightWords}
        onChange={(kind) => change(`light: ${lightWords[kind]}`, { light: kind })}
      />
      <Choice
        label="Room"
        value={room}
        words={roomWords}
        onChange={(kind) => change(`room: ${roomWords[kind]}`, { room: kind })}
      />
      <Choice
        label="Print"
        value={window.print}
        words={printWords}
        onChange={(kind) => change(`print: ${printWords[kind]}`, { window: { ...window, print: kind } })}
      />
    </>
  );
}
