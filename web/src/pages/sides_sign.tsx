/** Signing a side: by name, role and day; first what it does, then the signature. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { post, type Schemas } from "../api/client";
import { ChangesView } from "../parts/changes";
import { Dialog } from "../parts/dialog";
import { ChoiceField, WordsField } from "../parts/fields";
import { Failure, Waiting } from "../parts/notices";
import { change } from "../state/reason";
import { say, term } from "../state/say";
import { person, units } from "../state/ways";
import { today } from "../units/moment";

type Face = Schemas["SignIn"]["face"];
type Kinds = NonNullable<Schemas["SignIn"]["kinds"]>;

interface Props {
  readonly house: Schemas["HouseOut"];
  readonly group: Schemas["DecisionGroup"] | null;
  readonly kinds: readonly string[];
}

export function SignForm({ house, group, kinds }: Props): JSX.Element {
  const asked = useSignal<"sign" | "withdraw" | null>(null);
  const close = (): void => {
    asked.value = null;
  };
  const what =
    group === null
      ? say("sign.all")
      : group.locked
        ? say("sign.other")
        : say("sign.one", { kind: term("kind", group.kind) });
  return (
    <div class="row">
      <button
        type="button"
        class={group?.locked === true ? "" : "main"}
        onClick={() => {
          asked.value = "sign";
        }}
      >
        {what}
      </button>
      {group !== null && group.signed.length > 0 && (
        <button
          type="button"
          onClick={() => {
            asked.value = "withdraw";
          }}
        >
          {say("sign.withdraw")}
        </button>
      )}
      {asked.value === "sign" && (
        <Sign house={house} kinds={kinds} first={proposedFace(group)} onClose={close} />
      )}
      {asked.value === "withdraw" && <Withdraw house={house} kinds={kinds} onClose={close} />}
    </div>
  );
}

function proposedFace(group: Schemas["DecisionGroup"] | null): Face {
  const [best] = Object.entries(group?.proposed ?? {}).sort((a, b) => b[1] - a[1]);
  return (best?.[0] as Face | undefined) ?? "inner";
}

interface AskProps {
  readonly house: Schemas["HouseOut"];
  readonly kinds: readonly string[];
  readonly onClose: () => void;
}

function Sign({ house, kinds, first, onClose }: AskProps & { readonly first: Face }): JSX.Element {
  const face = useSignal<Face>(first);
  const role = useSignal("");
  const note = useSignal("");
  const day = useSignal(today());
  const preview = useSignal<Schemas["ChangesOut"] | null>(null);
  const busy = useSignal(false);
  const failure = useSignal<unknown>(null);
  const shown = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (preview.value !== null) shown.current?.scrollIntoView({ block: "start" });
  }, [preview.value]);
  const path = { house: house.id };
  const body = (reason: string): Schemas["SignIn"] => ({
    base: house.head,
    face: face.value,
    kinds: kinds as Kinds,
    joints: [],
    signed_by: person.value.trim(),
    role: role.value.trim(),
    date: day.value,
    note: note.value,
    reason,
  });
  const ready = person.value.trim().length >= 2 && role.value.trim().length >= 2;
  const look = async (): Promise<void> => {
    busy.value = true;
    failure.value = null;
    try {
      preview.value = await post("/api/v1/houses/{house}/decisions/preview", {
        path,
        body: body(""),
      });
    } catch (error) {
      failure.value = error;
    } finally {
      busy.value = false;
    }
  };
  const sign = (): void => {
    failure.value = null;
    change((reason) =>
      post("/api/v1/houses/{house}/decisions", {
        path,
        query: { units: units.value },
        body: body(reason),
      }),
    ).then(
      (done) => done && onClose(),
      (error: unknown) => {
        failure.value = error;
      },
    );
  };
  return (
    <Dialog
      title={say("sign.title", { kinds: kinds.map((kind) => term("kind", kind)).join(", ") })}
      onClose={onClose}
      actions={
        <>
          {failure.value !== null && <Failure error={failure.value} />}
          {!ready && <p class="soft">{say("sign.needs")}</p>}
          <div class="row">
            <button type="button" disabled={!ready || busy.value} onClick={look}>
              {say("sign.look")}
            </button>
            <button type="button" class="main" disabled={!ready} onClick={sign}>
              {say("sign.go")}
            </button>
            <button type="button" onClick={onClose}>
              {say("sign.stay")}
            </button>
          </div>
        </>
      }
    >
      <p class="soft">{say("sign.locked")}</p>
      <ChoiceField
        name={say("sign.face")}
        value={face.value}
        choices={(["inner", "outer", "both"] as const).map(
          (one) => [one, term("face", one)] as const,
        )}
        onValue={(one) => {
          face.value = one;
          preview.value = null;
        }}
      />
      <WordsField
        name={say("sign.name")}
        required
        value={person.value}
        onValue={(text) => {
          person.value = text;
        }}
      />
      <WordsField
        name={say("sign.role")}
        required
        list={[say("sign.designer"), say("sign.engineer")]}
        value={role.value}
        onValue={(text) => {
          role.value = text;
        }}
      />
      <WordsField
        name={say("sign.day")}
        type="date"
        value={day.value}
        onValue={(text) => {
          day.value = text;
        }}
      />
      <WordsField
        name={say("sign.note")}
        value={note.value}
        onValue={(text) => {
          note.value = text;
        }}
      />
      {busy.value && <Waiting />}
      {preview.value !== null && (
        <div class="preview" ref={shown}>
          <h3>{say("sign.does")}</h3>
          <ChangesView house={house.id} changes={preview.value} />
        </div>
      )}
    </Dialog>
  );
}

function Withdraw({ house, kinds, onClose }: AskProps): JSX.Element {
  const reason = useSignal("");
  const failure = useSignal<unknown>(null);
  const go = (): void => {
    const body = {
      base: house.head,
      kinds: kinds as Kinds,
      joints: [],
      person: person.value,
      reason: reason.value.trim(),
    };
    change(() =>
      post("/api/v1/houses/{house}/decisions/withdrawal", { path: { house: house.id }, body }),
    ).then(
      (done) => done && onClose(),
      (error: unknown) => {
        failure.value = error;
      },
    );
  };
  return (
    <Dialog
      title={say("sign.withdrawTitle")}
      onClose={onClose}
      actions={
        <>
          {failure.value !== null && <Failure error={failure.value} />}
          <div class="row">
            <button
              type="button"
              class="main"
              disabled={reason.value.trim().length < 3}
              onClick={go}
            >
              {say("sign.withdraw")}
            </button>
            <button type="button" onClick={onClose}>
              {say("sign.stay")}
            </button>
          </div>
        </>
      }
    >
      <WordsField
        name={say("sign.name")}
        value={person.value}
        onValue={(text) => {
          person.value = text;
        }}
      />
      <WordsField
        name={say("reason.name")}
        required
        value={reason.value}
        onValue={(text) => {
          reason.value = text;
        }}
      />
    </Dialog>
  );
}
