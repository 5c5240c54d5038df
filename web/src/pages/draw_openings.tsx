/** Doors, windows and services, each placed from the start corner of its wall. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { freeName, type HouseForm, hostsOf } from "../draft/form";
import { ChoiceField, LengthField } from "../parts/fields";
import { say, term } from "../state/say";
import { units } from "../state/ways";
import type { PartProps } from "./draw_parts";

type Opening = Schemas["OpeningForm"];
type Service = Schemas["ServiceForm"];

const INCH = 0.0254;

export function Openings({ form, onForm }: PartProps): JSX.Element {
  const list = form.openings ?? [];
  const change = (k: number, by: Partial<Opening>): void =>
    onForm(
      { ...form, openings: list.map((one, j) => (j === k ? { ...one, ...by } : one)) },
      `opening ${k} ${Object.keys(by)}`,
    );
  return (
    <>
      {list.map((one, k) => (
        <fieldset key={one.id}>
          <legend>
            {one.id} · {term("opening", one.kind)}
          </legend>
          <div class="fields">
            <Host form={form} value={one.host} onValue={(host) => change(k, { host })} />
            <LengthField
              name={say("draw.along")}
              value={one.along_m}
              onValue={(m) => m !== null && change(k, { along_m: m })}
            />
            <LengthField
              name={say("draw.up")}
              value={one.up_m}
              onValue={(m) => m !== null && change(k, { up_m: m })}
            />
            <LengthField
              name={say("draw.width")}
              value={one.width_m}
              onValue={(m) => m !== null && change(k, { width_m: m })}
            />
            <LengthField
              name={say("draw.tall")}
              value={one.height_m}
              onValue={(m) => m !== null && change(k, { height_m: m })}
            />
          </div>
          <button
            type="button"
            onClick={() => onForm({ ...form, openings: list.filter((_, j) => j !== k) })}
          >
            {say("draw.drop", { name: one.id })}
          </button>
        </fieldset>
      ))}
      <div class="row">
        <button type="button" onClick={() => onForm(withOpening(form, "door"))}>
          {say("draw.addDoor")}
        </button>
        <button type="button" onClick={() => onForm(withOpening(form, "window"))}>
          {say("draw.addWindow")}
        </button>
      </div>
    </>
  );
}

export function Services({ form, onForm }: PartProps): JSX.Element {
  const list = form.services ?? [];
  const change = (k: number, by: Partial<Service>): void =>
    onForm(
      { ...form, services: list.map((one, j) => (j === k ? { ...one, ...by } : one)) },
      `service ${k} ${Object.keys(by)}`,
    );
  return (
    <>
      {list.map((one, k) => (
        <fieldset key={one.id}>
          <legend>
            {one.id} · {term("service", one.kind ?? "pipe")}
          </legend>
          <div class="fields">
            <Host form={form} value={one.host} onValue={(host) => change(k, { host })} />
            <ChoiceField
              name={say("draw.serviceKind")}
              value={one.kind ?? "pipe"}
              choices={(["pipe", "duct", "flue", "box"] as const).map(
                (kind) => [kind, term("service", kind)] as const,
              )}
              onValue={(kind) => change(k, { kind })}
            />
            <LengthField
              name={say("draw.alongMiddle")}
              value={one.along_m}
              onValue={(m) => m !== null && change(k, { along_m: m })}
            />
            <LengthField
              name={say("draw.upMiddle")}
              value={one.up_m}
              onValue={(m) => m !== null && change(k, { up_m: m })}
            />
            <LengthField
              small
              name={say("draw.diameter")}
              value={one.diameter_m}
              onValue={(m) => m !== null && change(k, { diameter_m: m })}
            />
          </div>
          <button
            type="button"
            onClick={() => onForm({ ...form, services: list.filter((_, j) => j !== k) })}
          >
            {say("draw.drop", { name: one.id })}
          </button>
        </fieldset>
      ))}
      <button type="button" onClick={() => onForm(withService(form))}>
        {say("draw.addService")}
      </button>
    </>
  );
}

function Host({
  form,
  value,
  onValue,
}: {
  form: HouseForm;
  value: string;
  onValue: (host: string) => void;
}): JSX.Element {
  const hosts = hostsOf(form).map((one) => one.name);
  const known = hosts.includes(value) ? hosts : [value, ...hosts];
  return (
    <ChoiceField
      name={say("draw.wall")}
      value={value}
      choices={known.map((one) => [one, one] as const)}
      onValue={onValue}
    />
  );
}

/** A door or window of a common size in the middle of the emptiest wall. */
function withOpening(form: HouseForm, kind: "door" | "window"): HouseForm {
  const list = form.openings ?? [];
  const count = (host: string): number => list.filter((one) => one.host === host).length;
  const [host] = [...hostsOf(form)].sort((a, b) => count(a.name) - count(b.name));
  const us = units.value === "us";
  const [width, height] =
    kind === "door"
      ? us
        ? [38 * INCH, 82 * INCH]
        : [0.95, 2.1]
      : us
        ? [48 * INCH, 48 * INCH]
        : [1.2, 1.2];
  const along = Math.max(0.3, ((host?.length ?? 4) - (width ?? 1)) / 2);
  const step = us ? INCH : 0.01;
  const opening: Opening = {
    id: freeName(form, kind === "door" ? "D" : "W"),
    kind,
    host: host?.name ?? "A",
    along_m: Math.round(along / step) * step,
    up_m: kind === "door" ? 0 : us ? 36 * INCH : 0.9,
    width_m: width ?? 1,
    height_m: height ?? 1,
  };
  return { ...form, openings: [...list, opening] };
}

function withService(form: HouseForm): HouseForm {
  const list = form.services ?? [];
  const us = units.value === "us";
  const service: Service = {
    id: freeName(form, "P"),
    kind: "pipe",
    host: hostsOf(form).at(-1)?.name ?? "A",
    along_m: us ? 36 * INCH : 0.9,
    up_m: us ? 18 * INCH : 0.45,
    diameter_m: us ? 3 * INCH : 0.075,
  };
  return { ...form, services: [...list, service] };
}
