/** A place to drop a plan, a panel list or a model; a button does the same. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { useId, useRef } from "preact/hooks";
import { post, Refused, type Schemas } from "../api/client";
import { say } from "../state/say";
import { person } from "../state/ways";

type House = Schemas["HouseOut"];

interface Props {
  readonly onHouse: (work: () => Promise<House>) => void;
}

export function DropPlace({ onHouse }: Props): JSX.Element {
  const id = useId();
  const over = useSignal(false);
  const input = useRef<HTMLInputElement>(null);
  const take = (files: readonly File[]): void => {
    if (files.length > 0) onHouse(() => bring(files));
  };
  return (
    <section
      class={`drop ${over.value ? "over" : ""}`}
      aria-label={say("drop.name")}
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
      <p>{say("drop.lead")}</p>
      <label class="hidden-words" for={id}>
        {say("drop.choose")}
      </label>
      <input
        ref={input}
        id={id}
        class="hidden-words"
        type="file"
        multiple
        accept=".yaml,.yml,.csv,.ifc"
        tabIndex={-1}
        onChange={(event) => {
          take([...(event.currentTarget.files ?? [])]);
          event.currentTarget.value = "";
        }}
      />
      <button type="button" onClick={() => input.current?.click()}>
        {say("drop.choose")}
      </button>
    </section>
  );
}

/** Send files to the server: one plan or model, or a panel list with the plan text of its types. */
async function bring(files: readonly File[]): Promise<House> {
  const ends = (tail: string): File | undefined =>
    files.find((one) => one.name.toLowerCase().endsWith(tail));
  const list = ends(".csv");
  const text = ends(".yaml") ?? ends(".yml");
  if (list !== undefined) {
    const types = text === undefined ? "" : await text.text();
    const source = { kind: "csv" as const, text: await list.text(), types, name: list.name };
    return post("/api/v1/houses", { body: { source, author: person.value, note: "" } });
  }
  if (text !== undefined) {
    const source = { kind: "yaml" as const, text: await text.text(), name: text.name };
    return post("/api/v1/houses", { body: { source, author: person.value, note: "" } });
  }
  return upload(files[0] as File);
}

async function upload(file: File): Promise<House> {
  const form = new FormData();
  form.append("file", file, file.name);
  const answer = await fetch("/api/v1/houses/upload", { method: "POST", body: form });
  const body: unknown = await answer.json().catch(() => ({ problems: [] }));
  if (!answer.ok) throw new Refused(answer.status, (body as Schemas["Problems"]).problems);
  return body as House;
}
