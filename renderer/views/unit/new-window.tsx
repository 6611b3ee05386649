import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { PrintKind } from '../../../core/contract/light';
import { Ask } from '../ask';
import { useBook, useUnit } from '../book-context';
import { lengthOfText } from '../outline/draft';
import { Choice, LengthField } from '../fields';
import { printWords } from '../words';

const shapeWords = { rectangle: 'rectangle', ellipse: 'round or elliptic' } as const;
type Shape = keyof typeof shapeWords;

/** Asks for a window's name and size; a photo gives it its outline later. */
export function NewWindow(props: { readonly isOpen: boolean; readonly onClose: () => void }): JSX.Element {
  return (
    <Ask title="New window" isOpen={props.isOpen} onClose={props.onClose}>
      <NewWindowForm onClose={props.onClose} />
    </Ask>
  );
}

function NewWindowForm({ onClose }: { readonly onClose: () => void }): JSX.Element {
  const { book } = useBook();
  const { windows } = useUnit();
  const [name, setName] = useState(windows.length === 0 ? 'scale' : '');
  const [width, setWidth] = useState('');
  const [height, setHeight] = useState('');
  const [shape, setShape] = useState<Shape>('rectangle');
  const [print, setPrint] = useState<PrintKind>('auto');
  const [widthMm, heightMm] = [lengthOfText(width), lengthOfText(height)];
  const isTaken = windows.some((window) => window.name === name.trim());
  const isWhole = name.trim() !== '' && !isTaken && widthMm !== null && heightMm !== null;
  const add = (): void => {
    if (widthMm === null || heightMm === null) return;
    const window = {
      name: name.trim(),
      widthMm,
      heightMm,
      ...(shape === 'ellipse' ? { outline: { kind: 'ellipse' as const } } : {}),
      ...(print === 'auto' ? {} : { print }),
    };
    book.edit(`window ${window.name} added`, [{ kind: 'add-window', window }]);
    onClose();
  };
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (isWhole) add();
      }}
    >
      <label class="field">
        Name
        <input
          value={name}
          placeholder="scale, level meter"
          maxLength={200}
          autofocus
          onInput={(event) => setName(event.currentTarget.value)}
        />
        {isTaken && <span role="alert">There is a window of this name already.</span>}
      </label>
      <div class="fields">
        <LengthField label="Width, by caliper" text={width} onChange={setWidth} />
        <LengthField label="Height" text={height} onChange={setHeight} />
      </div>
      <Choice label="Shape" value={shape} words={shapeWords} onChange={setShape}>
        <span class="hint">Another outline is drawn on the bench, on a photo.</span>
      </Choice>
      <Choice label="Print" value={print} words={printWords} onChange={setPrint} />
      <p class="row">
        <button class="go" type="submit" disabled={!isWhole}>
          Add the window
        </button>
        <button type="button" onClick={onClose}>
          Cancel
        </button>
      </p>
    </form>
  );
}
