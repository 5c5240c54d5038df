/** A place to drop a plan, a panel list or a model. */

import type { JSX } from "preact";
import { post, Refused, type Schemas, spoken } from "../api/client";
import { DropBox } from "../parts/drop_box";
import { say } from "../state/say";
import { person } from "../state/ways";

type House = Schemas["HouseOut"];

interface Props {
  readonly onHouse: (work: () => Promise<House>) => void;
}

export function DropPlace({ onHouse }: Props): JSX.Element {
  return (
    <DropBox
      name={say("drop.name")}
      lead={say("drop.lead")}
      choose={say("drop.choose")}
      accept=".yaml,.yml,.csv,.ifc"
      many
      onFiles={(files) => onHouse(() => bring(files))}
    />
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
  const answer = await fetch("/api/v1/houses/upload", {
    method: "POST",
    headers: spoken(),
    body: form,
  });
  const body: unknown = await answer.json().catch(() => ({ problems: [] }));
  if (!answer.ok) throw new Refused(answer.status, (body as Schemas["Problems"]).problems);
  return body as House;
}
