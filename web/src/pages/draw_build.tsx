/** What the house is made of, what it stands on, and where. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import type { HouseForm } from "../draft/form";
import { ChoiceField, LengthField, WordsField } from "../parts/fields";
import { say, term } from "../state/say";
import type { PartProps } from "./draw_parts";

type PanelForm = Schemas["PanelForm"];

const SPLINES = ["surface", "block", "lumber", "i_joist", "cam_lock"] as const;
const BASES = ["slab", "stem_wall", "floor_panels"] as const;
const ZONES = [
  "1A",
  "2A",
  "2B",
  "3A",
  "3B",
  "3C",
  "4A",
  "4B",
  "4C",
  "5A",
  "5B",
  "5C",
  "6A",
  "6B",
  "7",
  "8",
];

export function Build({ form, onForm }: PartProps): JSX.Element {
  const panel =
    (key: "wall_panel" | "roof_panel") =>
    (by: Partial<PanelForm>): void =>
      onForm({ ...form, [key]: { ...form[key], ...by } }, `${key} ${Object.keys(by)}`);
  const base = form.base ?? {};
  const change = (by: Partial<NonNullable<HouseForm["base"]>>): void =>
    onForm({ ...form, base: { ...base, ...by } } as HouseForm, `base ${Object.keys(by)}`);
  return (
    <>
      <Panel title={say("draw.wallPanel")} panel={form.wall_panel} onPanel={panel("wall_panel")} />
      <Panel title={say("draw.roofPanel")} panel={form.roof_panel} onPanel={panel("roof_panel")} />
      <fieldset>
        <legend>{say("draw.base")}</legend>
        <div class="fields">
          <ChoiceField
            name={say("draw.baseKind")}
            value={base.kind ?? "slab"}
            choices={BASES.map((one) => [one, term("base", one)] as const)}
            onValue={(kind) => change({ kind })}
          />
          <LengthField
            small
            name={say("draw.baseThick")}
            value={base.thickness_m ?? null}
            onValue={(m) => m !== null && change({ thickness_m: m })}
          />
          <LengthField
            small
            name={say("draw.sillPlate")}
            value={base.sill_m ?? null}
            onValue={(m) => m !== null && change({ sill_m: m })}
          />
        </div>
      </fieldset>
    </>
  );
}

interface PanelProps {
  readonly title: string;
  readonly panel: PanelForm;
  readonly onPanel: (by: Partial<PanelForm>) => void;
}

function Panel({ title, panel, onPanel }: PanelProps): JSX.Element {
  return (
    <fieldset>
      <legend>{title}</legend>
      <div class="fields">
        <LengthField
          small
          name={say("draw.thickness")}
          value={panel.thickness_m}
          onValue={(m) => m !== null && onPanel({ thickness_m: m })}
        />
        <LengthField
          small
          name={say("draw.skin")}
          value={panel.skin_m ?? null}
          onValue={(m) => m !== null && onPanel({ skin_m: m })}
        />
        <LengthField
          name={say("draw.maxWidth")}
          value={panel.max_width_m ?? null}
          onValue={(m) => m !== null && onPanel({ max_width_m: m })}
        />
        <LengthField
          name={say("draw.maxLength")}
          value={panel.max_length_m ?? null}
          onValue={(m) => m !== null && onPanel({ max_length_m: m })}
        />
        <ChoiceField
          name={say("draw.spline")}
          value={panel.spline ?? "surface"}
          choices={SPLINES.map((one) => [one, term("spline", one)] as const)}
          onValue={(spline) => onPanel({ spline })}
        />
      </div>
    </fieldset>
  );
}

export function Place({ form, onForm }: PartProps): JSX.Element {
  const degrees = (text: string): number | null => {
    const value = Number(text.replace(",", "."));
    return text.trim() === "" || !Number.isFinite(value) ? null : value;
  };
  return (
    <>
      <WordsField
        name={say("draw.name")}
        value={form.name}
        required
        onValue={(name) => onForm({ ...form, name }, "name")}
      />
      <WordsField
        name={say("draw.place")}
        value={form.place ?? ""}
        onValue={(place) => onForm({ ...form, place }, "place")}
      />
      <div class="fields">
        <WordsField
          name={say("draw.zone")}
          list={ZONES}
          value={form.climate_zone ?? ""}
          help={say("draw.zoneHelp")}
          onValue={(zone) =>
            onForm(
              {
                ...form,
                climate_zone: zone.trim().toUpperCase(),
                zone_edition: zone.trim() === "" ? "" : form.zone_edition || "IECC 2021",
              },
              "zone",
            )
          }
        />
        <WordsField
          name={say("draw.latitude")}
          help={say("draw.placeHelp")}
          value={
            form.latitude_deg === null || form.latitude_deg === undefined
              ? ""
              : String(form.latitude_deg)
          }
          onValue={(text) => onForm({ ...form, latitude_deg: degrees(text) }, "latitude")}
        />
        <WordsField
          name={say("draw.longitude")}
          value={
            form.longitude_deg === null || form.longitude_deg === undefined
              ? ""
              : String(form.longitude_deg)
          }
          onValue={(text) => onForm({ ...form, longitude_deg: degrees(text) }, "longitude")}
        />
      </div>
    </>
  );
}
