/** The model: the house as a drawing that turns, with its key beside it. */

import { useComputed, useSignal, useSignalEffect } from "@preact/signals";
import type { JSX } from "preact";
import { useCallback, useEffect, useRef } from "preact/hooks";
import { Refused, urlOf } from "../api/client";
import type { HousePage } from "../desk";
import type { Answered } from "../engine/keeper";
import { type Asked, rowsOf } from "../engine/looks";
import type { ToldScene } from "../engine/read";
import type { Cut, Pick, Role, Standing } from "../engine/types";
import { ModelWindow } from "../engine/window";
import { Failure, Waiting } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { changes, useRead } from "../state/held";
import { addressOf, replaceRoute } from "../state/route";
import { say, type WordKey } from "../state/say";
import { language, still, units } from "../state/ways";
import { answersOf, ranksOf } from "./model_answers";
import { Key } from "./model_key";
import { Slip } from "./model_slip";

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
  return (
    <Sheet title={say("model.title")} house={house.name} bare>
      <Model key={house.id} house={house.id} first={item} by={choices.get("by")} />
    </Sheet>
  );
}

interface ModelProps {
  readonly house: string;
  readonly first: string | null;
  readonly by: string | null;
}

function Model({ house, first, by }: ModelProps): JSX.Element {
  const values = useRead("/api/v1/houses/{house}/joint-values", { path: { house } }).value;
  const scene = useSignal<ToldScene | null>(null);
  const failed = useSignal<unknown>(null);
  const known = useSignal(values);
  known.value = values;
  const asked = useSignal<Asked>((by as Asked | null) ?? "kind");
  const hidden = useSignal<ReadonlySet<string>>(new Set());
  const cut = useSignal<Cut | null>(null);
  const apart = useSignal(0);
  const standing = useSignal(SOLID);
  const nodes = useSignal(true);
  const pick = useSignal<Pick | null>(null);
  const view = useSignal<ModelWindow | null>(null);
  const broken = useSignal(false);
  const canvas = useRef<HTMLCanvasElement>(null);

  useEffect(() => {
    if (canvas.current === null) return;
    const hear = (answered: Answered): void => {
      if ("pick" in answered) pick.value = answered.pick;
      else if ("broken" in answered) broken.value = true;
      else if ("refused" in answered) {
        failed.value = new Refused(answered.refused.status, answered.refused.problems);
      } else if ("scene" in answered) {
        if (scene.value === null) pick.value = firstPick(answered.scene, first);
        scene.value = answered.scene;
      }
    };
    const made = new ModelWindow(canvas.current, hear, still());
    view.value = made;
    Object.assign(canvas.current, { view: made });
    return () => made.close();
  }, []);
  useSignalEffect(() => {
    if (changes.value >= 0)
      view.value?.load(urlOf("/api/v1/houses/{house}/scene", { path: { house } }));
  });

  const answers = useComputed(() =>
    scene.value === null ? [] : answersOf(scene.value, known.value),
  );
  const ranks = useComputed(() => ranksOf(asked.value, answers.value));
  useSignalEffect(() => {
    const [shown, of] = [view.value, ranks.value];
    const styles = rowsOf(asked.value).map((row) => ({
      ...row.style,
      shown: !hidden.value.has(row.key),
    }));
    if (of.length > 0) shown?.act("paint", { styles, of });
  });
  useSignalEffect(() => view.value?.act("setCut", cut.value));
  useSignalEffect(() => view.value?.act("setApart", apart.value));
  useSignalEffect(() => view.value?.act("setStanding", standing.value));
  useSignalEffect(() => view.value?.act("setNodes", nodes.value));
  useSignalEffect(() => view.value?.act("select", pick.value));
  useSignalEffect(() => {
    if (scene.value !== null) replaceRoute(addressOf(house, "model", pick.value?.id ?? null));
  });
  const find = useCallback((one: Pick) => {
    pick.value = one;
    view.value?.act("focus", one);
  }, []);

  if (failed.value !== null) return <Failure error={failed.value} />;
  return (
    <div class="model">
      <div class="window">
        {broken.value ? (
          <img
            class="still-picture"
            src={urlOf("/api/v1/houses/{house}/picture", {
              path: { house },
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
        {pick.value !== null && scene.value !== null && (
          <Slip
            scene={scene.value}
            pick={pick.value}
            onShow={find}
            onClose={() => {
              pick.value = null;
            }}
          />
        )}
      </div>
      {scene.value === null ? (
        <div class="key">
          <Waiting />
        </div>
      ) : (
        <Key
          scene={scene.value}
          ranks={ranks}
          asked={asked}
          hidden={hidden}
          cut={cut}
          apart={apart}
          standing={standing}
          nodes={nodes}
          turning={!broken.value}
          onFind={find}
        />
      )}
    </div>
  );
}

function Compass({ view }: { view: ModelWindow | null }): JSX.Element {
  return (
    <div class="compass" role="group" aria-label={say("model.compass")}>
      {SIDES.map(([word, bearing, tilt]) => (
        <button type="button" key={word} onClick={() => view?.act("turnTo", bearing, tilt)}>
          {say(word)}
        </button>
      ))}
      <button type="button" onClick={() => view?.act("fit")}>
        {say("model.fit")}
      </button>
    </div>
  );
}

function firstPick(scene: ToldScene, id: string | null): Pick | null {
  if (id === null) return null;
  if (scene.joints.ids.includes(id)) return { what: "joint", id };
  return scene.nodes.ids.includes(id) ? { what: "node", id } : null;
}
