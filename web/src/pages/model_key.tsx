/** The key: what the lines mean, which are drawn, and the hands that cut, part and thin the house. */

import type { ReadonlySignal, Signal } from "@preact/signals";
import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { memo } from "preact/compat";
import { useId, useMemo } from "preact/hooks";
import { ASKED, type Asked, rowsOf } from "../engine/looks";
import type { ToldScene } from "../engine/read";
import { type Axis, type Cut, type Pick, ROLES, type Role, type Standing } from "../engine/types";
import { Check, ChoiceField } from "../parts/fields";
import { LineSample } from "../parts/marks";
import { say, term, type WordKey } from "../state/say";
import { language, units } from "../state/ways";
import { showLength } from "../units/show";

interface Props {
  readonly scene: ToldScene;
  /** Under which row of the legend each joint falls. */
  readonly ranks: ReadonlySignal<Uint8Array>;
  readonly asked: Signal<Asked>;
  readonly hidden: Signal<ReadonlySet<string>>;
  readonly cut: Signal<Cut | null>;
  readonly apart: Signal<number>;
  readonly standing: Signal<Record<Role, Standing>>;
  readonly nodes: Signal<boolean>;
  readonly turning: boolean;
  readonly onFind: (pick: Pick) => void;
}

export const Key = memo(function Key(props: Props): JSX.Element {
  return (
    <aside class="key" aria-label={say("key.name")}>
      <Legend {...props} />
      {props.turning && (
        <>
          <h2>{say("key.hands")}</h2>
          <CutHand {...props} />
          <ApartHand apart={props.apart} />
          <h2>{say("key.bodies")}</h2>
          <Standings {...props} />
        </>
      )}
      <Finder scene={props.scene} onFind={props.onFind} />
    </aside>
  );
});

function Legend({ scene, ranks, asked, hidden }: Props): JSX.Element {
  const all = rowsOf(asked.value);
  const tally = all.map(() => ({ n: 0, length: 0 }));
  ranks.value.forEach((rank, k) => {
    const row = tally[rank];
    if (row === undefined) return;
    row.n += 1;
    row.length += scene.joints.length[k] ?? 0;
  });
  const rows = all
    .map((row, k) => ({ ...row, n: tally[k]?.n ?? 0, length: tally[k]?.length ?? 0 }))
    .filter((row) => row.n > 0);
  const toggle = (key: string): void => {
    const next = new Set(hidden.value);
    if (!next.delete(key)) next.add(key);
    hidden.value = next;
  };
  return (
    <>
      <h2 class="hidden-words">{say("key.legend")}</h2>
      <ChoiceField
        name={say("key.by")}
        value={asked.value}
        choices={ASKED.map((one) => [one, say(`key.by.${one}` as WordKey)] as const)}
        onValue={(value) => {
          asked.value = value;
          hidden.value = new Set();
        }}
      />
      <ul class="legend">
        {rows.map((row) => {
          const { n, length } = row;
          const name =
            asked.value === "margin" || asked.value === "leak"
              ? say(`${asked.value}.${row.key}` as WordKey)
              : term(asked.value, row.key);
          return (
            <li key={row.key}>
              <button
                type="button"
                aria-pressed={!hidden.value.has(row.key)}
                title={`${n} · ${showLength(length, units.value)}`}
                onClick={() => toggle(row.key)}
              >
                <LineSample style={row.style} />
                <span>{name}</span>
                <span class="figure">{n}</span>
              </button>
            </li>
          );
        })}
      </ul>
    </>
  );
}

const AXES: readonly (readonly [Axis | "none", WordKey])[] = [
  ["none", "cut.none"],
  ["z", "cut.level"],
  ["x", "cut.eastWest"],
  ["y", "cut.northSouth"],
];

function CutHand({ scene, cut }: Props): JSX.Element {
  const id = useId();
  const at = cut.value;
  const k = at === null ? 2 : { x: 0, y: 1, z: 2 }[at.axis];
  const low = scene.low[k] ?? 0;
  const place = low + ((scene.high[k] ?? 0) - low) * (at?.at ?? 0);
  return (
    <>
      <ChoiceField
        name={say("cut.name")}
        value={at?.axis ?? "none"}
        choices={AXES.map(([axis, word]) => [axis, say(word)] as const)}
        onValue={(axis) => {
          cut.value =
            axis === "none" ? null : { axis, at: 0.5, keep: axis === "y" ? "above" : "below" };
        }}
      />
      {at !== null && (
        <div class="slide">
          <label for={id}>{say("cut.at")}</label>
          <output class="figure">{showLength(place, units.value)}</output>
          <input
            id={id}
            type="range"
            min="0"
            max="1"
            step="0.005"
            value={at.at}
            onInput={(event) => {
              cut.value = { ...at, at: Number(event.currentTarget.value) };
            }}
          />
          <button
            type="button"
            onClick={() => {
              cut.value = { ...at, keep: at.keep === "below" ? "above" : "below" };
            }}
          >
            {say("cut.other")}
          </button>
        </div>
      )}
    </>
  );
}

function ApartHand({ apart }: { apart: Signal<number> }): JSX.Element {
  const id = useId();
  return (
    <div class="slide">
      <label for={id}>{say("apart.name")}</label>
      <output class="figure">{showLength(apart.value, units.value)}</output>
      <input
        id={id}
        type="range"
        min="0"
        max="3"
        step="0.05"
        value={apart.value}
        onInput={(event) => {
          apart.value = Number(event.currentTarget.value);
        }}
      />
    </div>
  );
}

function Standings({ scene, standing, nodes }: Props): JSX.Element {
  const id = useId();
  const present = new Set(scene.sorts);
  const timber = scene.sorts.some((sort) => !PLATES.has(sort));
  const roles = ROLES.filter((role) =>
    role === "timber"
      ? timber
      : role === "bearing"
        ? BEARINGS.some((sort) => present.has(sort))
        : present.has(role),
  );
  return (
    <>
      <div class="standings">
        {roles.map((role) => (
          <>
            <label for={`${id}-${role}`}>{say(`role.${role}` as WordKey)}</label>
            <select
              id={`${id}-${role}`}
              value={standing.value[role]}
              onChange={(event) => {
                standing.value = {
                  ...standing.value,
                  [role]: event.currentTarget.value as Standing,
                };
              }}
            >
              {(["solid", "ghost", "hidden"] as const).map((how) => (
                <option key={how} value={how}>
                  {say(`standing.${how}`)}
                </option>
              ))}
            </select>
          </>
        ))}
      </div>
      <Check
        checked={nodes.value}
        onChange={(on) => {
          nodes.value = on;
        }}
      >
        {say("key.nodes")}
      </Check>
    </>
  );
}

const BEARINGS = ["slab", "stem_wall", "deck", "other_wall"];
const PLATES = new Set(["wall", "roof", "floor", "rim", "partition", ...BEARINGS]);
const MOST = 25;

interface FinderProps {
  readonly scene: ToldScene;
  readonly onFind: (pick: Pick) => void;
}

function Finder({ scene, onFind }: FinderProps): JSX.Element {
  const id = useId();
  const text = useSignal("");
  const wanted = text.value.trim().toLowerCase();
  const named = useMemo(() => {
    const kinds = scene.joints.kinds.map((kind) => term("kind", kind));
    return scene.joints.ids.map((name, k) => {
      const words = `${name} ${kinds[scene.joints.kind[k] ?? 0] ?? ""}`;
      return { what: "joint" as const, id: name, words, small: words.toLowerCase() };
    });
  }, [scene, language.value]);
  const joints = wanted === "" ? named : named.filter((one) => one.small.includes(wanted));
  const nodes =
    wanted === ""
      ? []
      : scene.nodes.ids
          .filter((name) => name.toLowerCase().includes(wanted))
          .map((name) => ({ what: "node" as const, id: name, words: name }));
  const found = [...nodes, ...joints];
  return (
    <>
      <h2>{say("finder.title")}</h2>
      <label for={id}>{say("finder.name")}</label>
      <input
        id={id}
        type="search"
        value={text.value}
        onInput={(event) => {
          text.value = event.currentTarget.value;
        }}
      />
      <ul class="legend">
        {found.slice(0, MOST).map((one) => (
          <li key={one.id}>
            <button type="button" onClick={() => onFind({ what: one.what, id: one.id })}>
              {one.words}
            </button>
          </li>
        ))}
      </ul>
      <p class="soft" role="status">
        {say("finder.count", { n: Math.min(found.length, MOST), all: found.length })}
      </p>
    </>
  );
}
