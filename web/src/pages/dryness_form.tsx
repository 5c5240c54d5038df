/** What to work out of the dryness: kinds of joint, faces, years, weather. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { ChoiceField, FileField, WordsField } from "../parts/fields_more";
import { say, term } from "../state/say";
import { ask, type Wishes } from "../state/work";

interface FormProps {
  readonly house: Schemas["HouseOut"];
  readonly asked: Partial<Wishes>;
  readonly busy: boolean;
  readonly open: boolean;
}

type FaceAsked = "all" | "inner" | "outer" | "both";
const KINDS = [
  "",
  "wall_spline",
  "wall_corner",
  "wall_tee",
  "sill",
  "floor_line",
  "floor_spline",
  "roof_spline",
  "ridge",
  "hip",
  "valley",
  "eave",
  "rake",
  "roof_step",
  "end_joint",
] as const;

export function DryForm({ house, asked, busy, open }: FormProps): JSX.Element {
  const joint = useSignal<string>(asked.joint ?? "");
  const face = useSignal<FaceAsked>(asked.face ?? "all");
  const years = useSignal(String(asked.years ?? 2));
  const weather = useSignal(
    asked.weather == null
      ? null
      : { name: asked.weather_name ?? "weather.csv", text: asked.weather },
  );
  const send = (event: Event): void => {
    event.preventDefault();
    const span = Math.round(Number(years.value));
    void ask(house.id, "dryness", {
      ...(joint.value === "" ? {} : { joint: joint.value }),
      ...(face.value === "all" ? {} : { face: face.value }),
      years: span >= 1 && span <= 20 ? span : 2,
      ...(weather.value === null
        ? {}
        : { weather: weather.value.text, weather_name: weather.value.name }),
    });
  };
  return (
    <details class="ask" open={open}>
      <summary>{say("dryness.goesBy")}</summary>
      <form onSubmit={send}>
        <div class="fields top">
          <ChoiceField
            name={say("dryness.kind")}
            value={joint.value}
            choices={KINDS.map(
              (one) =>
                [one as string, one === "" ? say("dryness.allKinds") : term("kind", one)] as const,
            )}
            onValue={(value) => {
              joint.value = value;
            }}
          />
          <ChoiceField
            name={say("dryness.face")}
            value={face.value}
            choices={(["all", "inner", "outer", "both"] as const).map(
              (one) => [one, one === "all" ? say("dryness.allFaces") : term("face", one)] as const,
            )}
            onValue={(value) => {
              face.value = value;
            }}
          />
          <WordsField
            type="number"
            name={say("dryness.years")}
            value={years.value}
            help={say("dryness.yearsHelp")}
            onValue={(value) => {
              years.value = value;
            }}
          />
        </div>
        <FileField
          name={say("forecast.weather")}
          help={say("dryness.weatherHelp")}
          accept=".csv,.epw"
          file={weather.value}
          onFile={(file) => {
            weather.value = file;
          }}
        />
        <button type="submit" class="main" disabled={busy}>
          {say(busy ? "work.underWay" : "dryness.go")}
        </button>
      </form>
    </details>
  );
}
