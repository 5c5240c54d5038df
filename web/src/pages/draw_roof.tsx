/** The roof: one part over each outline. */

import type { JSX } from "preact";
import { useId } from "preact/hooks";
import type { Roof } from "../draft/form";
import { Check, ChoiceField, LengthField } from "../parts/fields";
import { say, term } from "../state/say";
import type { PartProps } from "./draw_parts";

const KINDS = ["gable", "shed", "hip", "gambrel", "saltbox"] as const;
const PITCHES = [2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14] as const;
const INCH = 0.0254;

type Part = Partial<Roof> & Pick<Roof, "id" | "over" | "pitch_rise">;

export function RoofParts({ form, onForm }: PartProps): JSX.Element {
  const parts: readonly Part[] = form.roof ?? [];
  const change = (k: number, by: Partial<Roof>): void =>
    onForm(
      { ...form, roof: parts.map((one, j) => (j === k ? { ...one, ...by } : one)) as Roof[] },
      `roof ${k} ${Object.keys(by)}`,
    );
  return (
    <>
      {parts.map((part, k) => (
        <fieldset key={part.id}>
          <legend>{say("draw.roofOver", { name: part.over })}</legend>
          <RoofFields part={part} onPart={(by) => change(k, by)} />
        </fieldset>
      ))}
    </>
  );
}

function RoofFields({
  part,
  onPart,
}: {
  part: Part;
  onPart: (by: Partial<Roof>) => void;
}): JSX.Element {
  const kind = part.kind ?? "gable";
  return (
    <>
      <div class="fields">
        <ChoiceField
          name={say("draw.roofKind")}
          value={kind}
          choices={KINDS.map((one) => [one, term("roof", one)] as const)}
          onValue={(next) => onPart(shaped(part, next))}
        />
        <Eaves part={part} onPart={onPart} />
        <Pitch
          name={say("draw.pitch")}
          rise={part.pitch_rise}
          onRise={(pitch_rise) => onPart({ pitch_rise })}
        />
        {(kind === "gambrel" || kind === "saltbox") && (
          <Pitch
            name={say("draw.secondPitch")}
            rise={part.second_pitch_rise ?? 4 / 12}
            onRise={(rise) => onPart({ second_pitch_rise: rise })}
          />
        )}
        {kind === "gambrel" && (
          <LengthField
            name={say("draw.breakRun")}
            value={part.break_run_m ?? null}
            onValue={(m) => onPart({ break_run_m: m })}
          />
        )}
        <LengthField
          small
          name={say("draw.overhangEave")}
          value={part.overhang_eave_m ?? 0}
          onValue={(m) => m !== null && onPart({ overhang_eave_m: m })}
        />
        {kind !== "hip" && (
          <LengthField
            small
            name={say("draw.overhangRake")}
            value={part.overhang_rake_m ?? 0}
            onValue={(m) => m !== null && onPart({ overhang_rake_m: m })}
          />
        )}
        <LengthField
          small
          name={say("draw.eavePlate")}
          value={part.eave_plate_m ?? 0}
          onValue={(m) => m !== null && onPart({ eave_plate_m: m })}
        />
      </div>
      {kind !== "shed" && (
        <Check
          checked={part.ridge_beam !== null && part.ridge_beam !== undefined}
          onChange={(on) =>
            onPart({ ridge_beam: on ? { width_m: 3.5 * INCH, depth_m: 11.875 * INCH } : null })
          }
        >
          {say("draw.ridgeBeam")}
        </Check>
      )}
      {kind !== "shed" && part.ridge_beam !== null && part.ridge_beam !== undefined && (
        <div class="fields">
          <LengthField
            small
            name={say("draw.beamWidth")}
            value={part.ridge_beam.width_m}
            onValue={(m) =>
              m !== null &&
              part.ridge_beam &&
              onPart({ ridge_beam: { ...part.ridge_beam, width_m: m } })
            }
          />
          <LengthField
            small
            name={say("draw.beamDepth")}
            value={part.ridge_beam.depth_m}
            onValue={(m) =>
              m !== null &&
              part.ridge_beam &&
              onPart({ ridge_beam: { ...part.ridge_beam, depth_m: m } })
            }
          />
        </div>
      )}
    </>
  );
}

/** What a part needs when it takes another shape. */
function shaped(part: Part, kind: Roof["kind"]): Partial<Roof> {
  const across = part.eaves?.some((side) => side === "east" || side === "west") ?? false;
  const both: Roof["eaves"] = across ? ["east", "west"] : ["south", "north"];
  const eaves: Roof["eaves"] = kind === "hip" ? [] : kind === "shed" ? [both[0] ?? "south"] : both;
  const second = kind === "gambrel" ? 5 / 12 : kind === "saltbox" ? 4 / 12 : null;
  return {
    kind,
    eaves,
    second_pitch_rise: second,
    break_run_m: kind === "gambrel" ? 1.5 : null,
    pitch_rise: kind === "gambrel" ? 1.5 : part.pitch_rise,
    ridge_beam: kind === "shed" ? null : (part.ridge_beam ?? null),
  };
}

function Eaves({
  part,
  onPart,
}: {
  part: Part;
  onPart: (by: Partial<Roof>) => void;
}): JSX.Element | null {
  const kind = part.kind ?? "gable";
  if (kind === "hip") return null;
  const choices: readonly Roof["eaves"][] =
    kind === "shed"
      ? [["south"], ["east"], ["north"], ["west"]]
      : kind === "saltbox"
        ? [
            ["south", "north"],
            ["north", "south"],
            ["east", "west"],
            ["west", "east"],
          ]
        : [
            ["south", "north"],
            ["east", "west"],
          ];
  return (
    <ChoiceField
      name={say(kind === "shed" ? "draw.eaveLow" : "draw.eaves")}
      value={(part.eaves ?? []).join(" ")}
      choices={choices.map(
        (sides) =>
          [sides.join(" "), sides.map((side) => term("compass", side)).join(", ")] as const,
      )}
      onValue={(sides) => onPart({ eaves: sides.split(" ") as Roof["eaves"] })}
    />
  );
}

interface PitchProps {
  readonly name: string;
  readonly rise: number;
  readonly onRise: (rise: number) => void;
}

/** A pitch as rise in twelve, in halves. */
function Pitch({ name, rise, onRise }: PitchProps): JSX.Element {
  const id = useId();
  const twelfths = Math.round(rise * 12 * 100) / 100;
  return (
    <div class="field">
      <label for={id}>{name}</label>
      <input
        id={id}
        type="number"
        min="0.5"
        max="48"
        step="0.5"
        list={`${id}-usual`}
        value={twelfths}
        onInput={(event) => {
          const told = Number(event.currentTarget.value);
          if (Number.isFinite(told) && told > 0 && told <= 120) onRise(told / 12);
        }}
      />
      <datalist id={`${id}-usual`}>
        {PITCHES.map((one) => (
          <option key={one} value={one} />
        ))}
      </datalist>
    </div>
  );
}
