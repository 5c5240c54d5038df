/** Correcting a joint, always with a reason; the correction is kept in the plan. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { put, remove, type Schemas } from "../api/client";
import inks from "../engine/inks.json";
import { Check, ChoiceField, LengthField, WordsField } from "../parts/fields";
import { Failure } from "../parts/notices";
import { change } from "../state/reason";
import { say, term } from "../state/say";
import { person, units } from "../state/ways";

type Given = Omit<Schemas["OverrideIn"], "base" | "author" | "change_reason">;

interface Props {
  readonly house: Schemas["HouseOut"];
  readonly joint: Schemas["JointOut"];
}

export function Correction({ house, joint }: Props): JSX.Element {
  const old = joint.override;
  const open = useSignal(old !== null);
  const given = useSignal<Given>({
    reason: old?.reason ?? "",
    kind: (old?.kind ?? null) as NonNullable<Given["kind"]> | null,
    face: old?.face ?? null,
    span_m: old?.span_m ?? null,
    strip_width_m: old?.strip_width_m ?? null,
    ignore: old?.ignore ?? false,
  });
  const failure = useSignal<unknown>(null);
  const path = { house: house.id, joint: joint.id };
  const set = (by: Partial<Given>): void => {
    given.value = { ...given.value, ...by };
  };
  const act = (attempt: (reason: string) => Promise<Schemas["Changed"]>): void => {
    failure.value = null;
    change(attempt).catch((error: unknown) => {
      failure.value = error;
    });
  };
  const query = { units: units.value };
  const keep = (): void =>
    act((reason) =>
      put("/api/v1/houses/{house}/joints/{joint}/override", {
        path,
        query,
        body: { ...given.value, base: house.head, author: person.value, change_reason: reason },
      }),
    );
  const drop = (): void =>
    act((reason) =>
      remove("/api/v1/houses/{house}/joints/{joint}/override", {
        path,
        query: { ...query, base: house.head, author: person.value, reason },
      }),
    );
  return (
    <section>
      <h2>{say("correct.title")}</h2>
      {old !== null && <p>{say("correct.stands", { reason: old.reason })}</p>}
      {!open.value ? (
        <button
          type="button"
          onClick={() => {
            open.value = true;
          }}
        >
          {say("correct.open")}
        </button>
      ) : (
        <div class="part">
          <div class="fields">
            <ChoiceField
              name={say("correct.kind")}
              value={given.value.kind ?? ""}
              choices={[
                ["", say("correct.asFound", { what: term("kind", joint.kind) })],
                ...Object.keys(inks).map((kind) => [kind, term("kind", kind)] as [string, string]),
              ]}
              onValue={(kind) =>
                set({ kind: kind === "" ? null : (kind as NonNullable<Given["kind"]>) })
              }
            />
            <ChoiceField
              name={say("correct.face")}
              value={given.value.face ?? ""}
              choices={[
                ["", say("correct.asPlanned")],
                ...(["inner", "outer", "both"] as const).map(
                  (face) => [face, term("face", face)] as [string, string],
                ),
              ]}
              onValue={(face) =>
                set({ face: face === "" ? null : (face as NonNullable<Given["face"]>) })
              }
            />
            <LengthField
              small
              optional
              name={say("correct.span")}
              value={given.value.span_m ?? null}
              onValue={(m) => set({ span_m: m })}
            />
            <LengthField
              small
              optional
              name={say("correct.width")}
              value={given.value.strip_width_m ?? null}
              onValue={(m) => set({ strip_width_m: m })}
            />
          </div>
          <Check checked={given.value.ignore ?? false} onChange={(ignore) => set({ ignore })}>
            {say("correct.ignore")}
          </Check>
          <WordsField
            name={say("correct.reason")}
            required
            value={given.value.reason}
            onValue={(reason) => set({ reason })}
          />
          {failure.value !== null && <Failure error={failure.value} />}
          <div class="row">
            <button
              type="button"
              class="main"
              disabled={given.value.reason.trim().length < 3}
              onClick={keep}
            >
              {say("correct.keep")}
            </button>
            {old !== null && (
              <button type="button" onClick={drop}>
                {say("correct.drop")}
              </button>
            )}
          </div>
        </div>
      )}
    </section>
  );
}
