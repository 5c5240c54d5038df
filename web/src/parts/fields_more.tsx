/** A field for a file whose text is sent along, beside the common fields. */

import type { JSX } from "preact";
import { useId, useRef } from "preact/hooks";
import { say } from "../state/say";

export { ChoiceField, WordsField } from "./fields";

export interface TextFile {
  readonly name: string;
  readonly text: string;
}

interface Props {
  readonly name: string;
  readonly help: string;
  readonly accept: string;
  readonly file: TextFile | null;
  readonly onFile: (file: TextFile | null) => void;
}

export function FileField({ name, help, accept, file, onFile }: Props): JSX.Element {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  return (
    <div class="field" role="group" aria-labelledby={`${id}-name`}>
      <label id={`${id}-name`} for={id}>
        {name}
      </label>
      <input
        ref={input}
        id={id}
        class="hidden-words"
        type="file"
        accept={accept}
        tabIndex={-1}
        onChange={(event) => {
          const taken = event.currentTarget.files?.[0];
          if (taken !== undefined)
            void taken.text().then((text) => onFile({ name: fitName(taken.name), text }));
          event.currentTarget.value = "";
        }}
      />
      <div class="row">
        <button type="button" onClick={() => input.current?.click()}>
          {file === null ? say("file.choose") : say("file.other")}
        </button>
        {file !== null && (
          <>
            <span class="figure">{file.name}</span>
            <button type="button" class="plain" onClick={() => onFile(null)}>
              {say("file.without")}
            </button>
          </>
        )}
      </div>
      <div class="help">{help}</div>
    </div>
  );
}

/** A name the server takes: plain letters, at most forty, and the ending. */
export function fitName(name: string): string {
  const ending = /\.(csv|epw|json|yaml|yml)$/i.exec(name)?.[0].toLowerCase() ?? ".csv";
  const bare = name
    .replace(/\.[^.]*$/, "")
    .replace(/[^A-Za-z0-9_-]/g, "_")
    .slice(0, 40);
  return `${bare === "" ? "file" : bare}${ending}`;
}
