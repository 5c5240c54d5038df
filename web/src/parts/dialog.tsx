/** A dialog that holds the keyboard until it is answered. */

import type { ComponentChildren, JSX } from "preact";
import { useEffect, useId, useRef } from "preact/hooks";

interface Props {
  readonly title: string;
  readonly onClose: () => void;
  /** The buttons: always in reach, however long the rest is. */
  readonly actions: ComponentChildren;
  readonly children: ComponentChildren;
}

export function Dialog({ title, onClose, actions, children }: Props): JSX.Element {
  const id = useId();
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    dialog.current?.showModal();
    return () => dialog.current?.close();
  }, []);
  return (
    <dialog
      ref={dialog}
      aria-labelledby={id}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <h2 id={id}>{title}</h2>
      {children}
      <div class="actions">{actions}</div>
    </dialog>
  );
}
