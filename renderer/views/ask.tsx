import type { ComponentChildren, JSX } from 'preact';
import { useEffect, useId, useRef } from 'preact/hooks';

interface AskProps {
  readonly title: string;
  readonly isOpen: boolean;
  readonly onClose: () => void;
  readonly isWide?: boolean;
  readonly children: ComponentChildren;
}

/** A question in a dialog of its own; Esc leaves it. Its content begins anew each time. */
export function Ask({ title, isOpen, onClose, isWide = false, children }: AskProps): JSX.Element {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    if (isOpen && !dialog.current?.open) dialog.current?.showModal();
    else if (!isOpen) dialog.current?.close();
  }, [isOpen]);
  return (
    <dialog ref={dialog} onClose={onClose} aria-labelledby={id} class={isWide ? 'ask wide' : 'ask'}>
      {isOpen && (
        <>
          <h1 id={id}>{title}</h1>
          {children}
        </>
      )}
    </dialog>
  );
}
