import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Look } from '../state/look';
import { keyList } from './screen-keys';

interface KeyListProps {
  readonly look: Look;
  readonly isOpen: boolean;
  readonly onClose: () => void;
}

/** All keys, in a dialog, and whether those without Ctrl act. */
export function KeyList({ look, isOpen, onClose }: KeyListProps): JSX.Element {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (isOpen) dialog.current?.showModal();
    else dialog.current?.close();
  }, [isOpen]);
  return (
    <dialog ref={dialog} onClose={onClose} aria-labelledby="keys-title">
      <h1 id="keys-title">Keys</h1>
      <table>
        <tbody>
          {keyList.map(([keys, does]) => (
            <tr key={keys}>
              <td>
                <kbd>{keys}</kbd>
              </td>
              <td>{does}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <label class="row">
        <input
          type="checkbox"
          checked={look.choice.value.plainKeys === 'on'}
          onChange={(event) => look.switchPlainKeys(event.currentTarget.checked ? 'on' : 'off')}
        />
        Keys without Ctrl act; turn them off when you speak to the machine
      </label>
      <p class="row">
        <button onClick={onClose}>Close</button>
      </p>
    </dialog>
  );
}
