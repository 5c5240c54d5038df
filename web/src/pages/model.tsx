/** The model: the house as a drawing that turns, with its key beside it. */

import { useComputed, useSignal, useSignalEffect } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect, useMemo, useRef } from "preact/hooks";
import { type Schemas, urlOf } from "../api/client";
import type { HousePage } from "../desk";
import { type Answers, type Asked, rowOf, styleOf } from "../engine/looks";
import type { Cut, Pick, Role, Standing } from "../engine/types";
import type { View } from "../engine/view";
import { Failure, Waiting } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { afterPaint } from "../state/after_paint";
import { useRead } from "../state/held";
import { addressOf, replaceRoute } from "../state/route";
import { say, type WordKey } from "../state/say";
import { language, still, units } from "../state/ways";
import { answersOf } from "./model_answers";
import { Key } from "./model_key";
import { Slip } from "./model_slip";

type Scene = Schemas["SceneOut"];

export const SOLID: Record<Role, Standing> = {
  wall: "solid",
  roof: "solid",
  floor: "solid",
  rim: "solid",
  partition: "solid",
  timber: "solid",
  bearing: "solid",
};

const SIDES: readonly (readonly [WordKey, number, number])[] = [
  ["model.corner", 148, 32],
  ["model.south", 180, 8],
  ["model.east", 90, 8],
  ["model.north", 0, 8],
  ["model.west", 270, 8],
  ["model.above", 180, 90],
];

export function Page({ house, item, choices }: HousePage): JSX.Element {
  const scene = useRead("/api/v1/houses/{house}/scene", { path: { house: house.id } });
  return (
    <Sheet title={say("model.title")} house={house.name} bare>
      {scene.error !== null && <Failure error={scene.error} />}
      {scene.value === null && scene.error === null && <Waiting />}
      {scene.value !== null && (
        <Model key={scene.value.revision} scene={scene.value} first={item} by={choices.get("by")} />
      )}
    </Sheet>
  );
}

interface ModelProps {
  readonly scene: Scene;
  readonly first: string | null;
  readonly by: string | null;
}

function Model({ scene, first, by }: ModelProps): JSX.Element {
  const values = useRead("/api/v1/houses/{house}/joint-values", {
    path: { house: scene.house },
  }).value;
  const answers = useMemo(() => answersOf(scene, values), [scene, values]);
  const told = useSignal(answers);
  told.value = answers;
  const asked = useSignal<Asked>((by as Asked | null) ?? "kind");
  const hidden = useSignal<ReadonlySet<string>>(new Set());
  const cut = useSignal<Cut | null>(null);
  const apart = useSignal(0);
  const standing = useSignal(SOLID);
  const nodes = useSignal(true);
  const pick = useSignal<Pick | null>(firstPick(scene, first));
  const view = useSignal<View | null>(null);
  const broken = useSignal(false);
  const canvas = useRef<HTMLCanvasElement>(null);

  useEffect(() => {
    let made: View | null = null;
    let gone = false;
    void Promise.all([import("../engine/view"), import("../engine/read")]).then(
      ([engine, read]) => {
        if (gone || canvas.current === null) return;
        try {
          const events = {
            onPick: (found: Pick | null) => {
              pick.value = found;
            },
          };
          made = new engine.View(canvas.current, read.readScene(scene), events, still());
          view.value = made;
          Object.assign(canvas.current, { view: made });
        } catch {
          broken.value = true;
        }
      },
    );
    return () => {
      gone = true;
      made?.close();
    };
  }, [scene]);

  const styles = useComputed(() =>
    told.value.map((one) => {
      const row = rowOf(asked.value, one);
      return { ...styleOf(asked.value, row), shown: !hidden.value.has(row) };
    }),
  );
  useSignalEffect(() => {
    const [shown, drawn] = [view.value, styles.value];
    return afterPaint(() => shown?.paint(drawn));
  });
  useSignalEffect(() => view.value?.setCut(cut.value));
  useSignalEffect(() => view.value?.setApart(apart.value));
  useSignalEffect(() => view.value?.setStanding(standing.value));
  useSignalEffect(() => view.value?.setNodes(nodes.value));
  useSignalEffect(() => {
    const [shown, chosen] = [view.value, pick.value];
    return afterPaint(() => shown?.select(chosen));
  });
  useSignalEffect(() => {
    replaceRoute(addressOf(scene.house, "model", pick.value?.id ?? null));
  });

  return (
    <div class="model">
      <div class="window">
        {broken.value ? (
          <img
            class="still-picture"
            src={urlOf("/api/v1/houses/{house}/picture", {
              path: { house: scene.house },
              query: { units: units.value, language: language.value },
            })}
            alt={say("model.picture")}
          />
        ) : (
          <canvas
            ref={canvas}
            tabIndex={0}
            role="application"
            aria-label={say("model.canvas")}
            aria-describedby="model-keys"
          />
        )}
        <p id="model-keys" class="hidden-words">
          {say("model.keys")}
        </p>
        {!broken.value && <Compass view={view.value} />}
        {pick.value !== null && (
          <Slip
            scene={scene}
            pick={pick.value}
            onShow={(one) => {
              pick.value = one;
              view.value?.focus(one);
            }}
            onClose={() => {
              pick.value = null;
            }}
          />
        )}
      </div>
      <Key
        scene={scene}
        answers={answers}
        asked={asked}
        hidden={hidden}
        cut={cut}
        apart={apart}
        standing={standing}
        nodes={nodes}
        turning={!broken.value}
        onFind={(one) => {
          pick.value = one;
          view.value?.focus(one);
        }}
      />
    </div>
  );
}

function Compass({ view }: { view: View | null }): JSX.Element {
  return (
    <div class="compass" role="group" aria-label={say("model.compass")}>
      {SIDES.map(([word, bearing, tilt]) => (
        <button type="button" key={word} onClick={() => view?.turnTo(bearing, tilt)}>
          {say(word)}
        </button>
      ))}
      <button type="button" onClick={() => view?.fit()}>
        {say("model.fit")}
      </button>
    </div>
  );
}

function firstPick(scene: Scene, id: string | null): Pick | null {
  if (id === null) return null;
  if (scene.joints.ids.includes(id)) return { what: "joint", id };
  return scene.nodes.ids.includes(id) ? { what: "node", id } : null;
}

export type { Answers };
