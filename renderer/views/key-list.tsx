import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { keyList } from './screen-keys';

/** All keys, in a dialog. */
export function KeyList({ isOpen, onClose }: { readonly isOpen: boolean; readonly onClose: () => void }): JSX.Element {
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
      <p class="row">
        <button onClick={onClose}>Close</button>
      </p>
    </dialog>
  );
}
