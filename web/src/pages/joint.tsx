/** One joint: its section, the arithmetic of its width, its layers, neighbors, correction and history. */

import type { JSX } from "preact";
import { type Schemas, urlOf } from "../api/client";
import type { HousePage } from "../desk";
import { Failure, Framed, Gravity, Waiting } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { Table } from "../parts/table";
import { useRead } from "../state/held";
import { addressOf } from "../state/route";
import { say, term } from "../state/say";
import { language, units } from "../state/ways";
import { showMoment } from "../units/moment";
import { showAngle, showLength, showSealant, showWidth } from "../units/show";
import { Correction } from "./joint_correct";
import { JointDryness } from "./joint_dryness";
import { RecordMany } from "./joint_record";
import { Strips } from "./joint_width";

type Joint = Schemas["JointOut"];
type Layer = Schemas["LayerOut"];

export function Page({ house, item }: HousePage): JSX.Element {
  const path = { house: house.id, joint: item ?? "" };
  const held = useRead("/api/v1/houses/{house}/joints/{joint}", {
    path,
    query: { units: units.value },
  });
  const joint = held.value;
  return (
    <Sheet title={say("joint.title", { id: item ?? "" })} house={house.name}>
      {held.error !== null && <Failure error={held.error} />}
      {joint === null && held.error === null && <Waiting />}
      {joint !== null && (
        <>
          <p>
            <strong>{joint.title}</strong>
            {joint.storey !== null && ` · ${say("joint.storey", { name: joint.storey })}`} ·{" "}
            <span class="figure">{showLength(joint.length_m, units.value)}</span> ·{" "}
            <Framed word={term("state", joint.state)} kind={joint.state === "open" ? "" : "done"} />
          </p>
          <div class="row">
            <a class="button" href={addressOf(house.id, "model", joint.id)}>
              {say("joint.inModel")}
            </a>
            <RecordMany house={house.id} joints={[joint.id]} />
          </div>
          <Findings findings={joint.findings} />
          <div class="beside">
            <figure class="drawing-sheet">
              <img
                src={urlOf("/api/v1/houses/{house}/joints/{joint}/section", {
                  path,
                  query: { units: units.value, language: language.value },
                })}
                alt={say("joint.sectionOf", { id: joint.id, title: joint.title })}
              />
              <figcaption>
                <a
                  href={urlOf("/api/v1/houses/{house}/joints/{joint}/section", {
                    path,
                    query: { units: units.value, language: language.value },
                  })}
                  target="_blank"
                  rel="noreferrer"
                >
                  {say("joint.sectionOpen")}
                </a>
              </figcaption>
            </figure>
            <div>
              <Side house={house.id} joint={joint} />
              <Facts joint={joint} />
            </div>
          </div>
          <Strips strips={joint.strips} />
          <Layers layers={joint.layers} />
          <Neighbors house={house.id} joint={joint} />
          <Correction house={house} joint={joint} />
          <JointDryness house={house.id} joint={joint} />
          <History joint={joint} />
        </>
      )}
    </Sheet>
  );
}

function Findings({ findings }: { findings: Joint["findings"] }): JSX.Element | null {
  if (findings.length === 0) return null;
  return (
    <div class="notice bad">
      <ul>
        {findings.map((one) => (
          <li key={one.id}>
            <Gravity severity={one.severity} /> {one.sentence}{" "}
            <span class="soft">{one.way_out}</span>
          </li>
        ))}
      </ul>
    </div>
  );
}

function Side({ house, joint }: { house: string; joint: Joint }): JSX.Element {
  const { side } = joint;
  return (
    <>
      <h2>{say("joint.side")}</h2>
      {side === null ? (
        <p>{say("joint.noSide")}</p>
      ) : (
        <p>
          <strong>{term("face", side.face)}</strong>{" "}
          {side.signed ? say("joint.signedBy", { by: side.by }) : <Framed word={say("unsigned")} />}
          <br />
          <span class="soft">{side.reason}</span>{" "}
          <a href={addressOf(house, "sides", joint.kind)}>{say("joint.toSides")}</a>
        </p>
      )}
    </>
  );
}

function Facts({ joint }: { joint: Joint }): JSX.Element {
  return (
    <>
      <h2>{say("joint.shape")}</h2>
      <dl class="facts">
        <dt>{say("joint.panels")}</dt>
        <dd class="figure">{[...joint.panels, ...joint.others].join(", ")}</dd>
        <dt>{say("joint.angle")}</dt>
        <dd class="figure">{showAngle(joint.dihedral_deg)}</dd>
        <dt>{say("joint.gap")}</dt>
        <dd class="figure">{showWidth(joint.gap_m, units.value)}</dd>
        {(["inner", "outer"] as const).map((name) => {
          const face = joint.faces[name];
          if (face === undefined) return null;
          return (
            <>
              <dt>{term("face", name)}</dt>
              <dd>
                <span class="figure">{showLength(face.length_m, units.value)}</span>
                {face.offset_m !== 0 &&
                  `, ${say("joint.step", { step: showWidth(face.offset_m, units.value) })}`}
                ; {term("reach", face.reach)} {face.reach === "never" ? "" : face.hidden_by}
                {face.timbers.length > 0 &&
                  `; ${say("joint.timbers", { ids: face.timbers.join(", ") })}`}
                {face.crossings.length > 0 &&
                  `; ${say("joint.crossings", { ids: face.crossings.join(", ") })}`}
              </dd>
            </>
          );
        })}
        {joint.note !== "" && (
          <>
            <dt>{say("joint.note")}</dt>
            <dd>{joint.note}</dd>
          </>
        )}
      </dl>
    </>
  );
}

function Layers({ layers }: { layers: Joint["layers"] }): JSX.Element | null {
  if (layers.length === 0) return null;
  return (
    <Table
      title={say("joint.layers")}
      rows={layers}
      keyOf={(row) => row.id}
      columns={[
        { key: "sort", head: say("joint.layer"), value: (row) => term("layer", row.sort) },
        { key: "place", head: say("joint.where"), value: (row) => row.place },
        { key: "amount", head: say("joint.amount"), value: amountOf, number: true },
        { key: "stage", head: say("joints.stage"), value: (row) => term("stage", row.stage) },
        {
          key: "source",
          head: say("joint.source"),
          value: (row) => row.source,
          cell: (row) => <span class="soft">{row.source}</span>,
        },
      ]}
    />
  );
}

function amountOf(layer: Layer): string {
  const parts = [
    layer.count === null || layer.count === undefined ? "" : `${layer.count} ×`,
    layer.diameter_m === null || layer.diameter_m === undefined
      ? layer.sort === "bead"
        ? say("joint.noSize")
        : ""
      : `⌀ ${showWidth(layer.diameter_m, units.value)}`,
    layer.length_m === null || layer.length_m === undefined
      ? ""
      : showLength(layer.length_m, units.value),
    layer.volume_m3 === null || layer.volume_m3 === undefined
      ? ""
      : showSealant(layer.volume_m3, units.value),
  ];
  return parts.filter((part) => part !== "").join(" ");
}

function Neighbors({ house, joint }: { house: string; joint: Joint }): JSX.Element {
  return (
    <>
      <h2>{say("joint.neighbors")}</h2>
      <ul>
        {joint.nodes.map((node) => (
          <li key={node}>
            <a class="figure" href={addressOf(house, "node", node)}>
              {node}
            </a>
            {": "}
            {joint.neighbors
              .filter((one) => one.node === node)
              .map((one, k) => (
                <>
                  {k > 0 && ", "}
                  <a class="figure" href={addressOf(house, "joint", one.id)}>
                    {one.id}
                  </a>{" "}
                  <span class="soft">{term("kind", one.kind)}</span>
                </>
              ))}
          </li>
        ))}
      </ul>
    </>
  );
}

function happened(one: Joint["history"][number]): string {
  if (one.what === "tested") return say("diary.tested", { flow: one.flow ?? "" });
  if (one.what !== "looked") return term("done", one.what);
  const by = term("search.by", one.by);
  return one.saw === "nothing"
    ? say("diary.clean", { by })
    : say("diary.found", { by, n: one.saw ?? "" });
}

function History({ joint }: { joint: Joint }): JSX.Element {
  return (
    <>
      <h2>{say("joint.history")}</h2>
      {joint.history.length === 0 && <p class="soft">{say("joint.noHistory")}</p>}
      <ul>
        {joint.history.map((one) => (
          <li key={`${one.when} ${one.what} ${one.note}`}>
            <span class="figure">{showMoment(one.when, language.value)}</span> · {happened(one)}
            {one.person !== "" && `, ${one.person}`}
            {one.note !== "" && `: ${one.note}`}
          </li>
        ))}
      </ul>
    </>
  );
}
