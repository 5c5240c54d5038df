/** A place to drop files; a button does the same. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { useId, useRef } from "preact/hooks";

interface Props {
  readonly name: string;
  readonly lead: string;
  readonly choose: string;
  readonly accept: string;
  readonly many?: boolean;
  readonly onFiles: (files: readonly File[]) => void;
}

export function DropBox({ name, lead, choose, accept, many, onFiles }: Props): JSX.Element {
  const id = useId();
  const over = useSignal(false);
  const input = useRef<HTMLInputElement>(null);
  const take = (files: readonly File[]): void => {
    if (files.length > 0) onFiles(many === true ? files : files.slice(0, 1));
  };
  return (
    <section
      class={`drop ${over.value ? "over" : ""}`}
      aria-label={name}
      onDragOver={(event) => {
        event.preventDefault();
        over.value = true;
      }}
      onDragLeave={() => {
        over.value = false;
      }}
      onDrop={(event) => {
        event.preventDefault();
        over.value = false;
        take([...(event.dataTransfer?.files ?? [])]);
      }}
    >
      <p>{lead}</p>
      <label class="hidden-words" for={id}>
        {choose}
      </label>
      <input
        ref={input}
        id={id}
        class="hidden-words"
        type="file"
        multiple={many === true}
        accept={accept}
        tabIndex={-1}
        onChange={(event) => {
          take([...(event.currentTarget.files ?? [])]);
          event.currentTarget.value = "";
        }}
      />
      <button type="button" onClick={() => input.current?.click()}>
        {choose}
      </button>
    </section>
  );
}
