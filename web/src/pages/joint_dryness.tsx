/** What the work on dryness says of one joint: the margin of each face against how much it leaks. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { type Curve, Plot } from "../charts/plot";
import { Notice } from "../parts/notices";
import { Table } from "../parts/table";
import { ResultLine, useStanding } from "../parts/work_result";
import { useRead } from "../state/held";
import { addressOf } from "../state/route";
import { say, term } from "../state/say";
import { language, units } from "../state/ways";
import { ask, type Job, jobs } from "../state/work";
import { leakIn, leakUnit, showLeak } from "../units/leak";
import { showLength } from "../units/show";

type Found = Schemas["DrynessOut"];
type Height = Schemas["HeightOut"];
type Option = Schemas["FaceOptionOut"];

interface Props {
  readonly house: string;
  readonly joint: Schemas["JointOut"];
}

export function JointDryness({ house, joint }: Props): JSX.Element {
  const standing = useStanding("dryness");
  const done = (jobs.value ?? []).filter((job) => job.kind === "dryness" && job.state === "done");
  return (
    <section>
      <h2>{say("joint.dryTitle")}</h2>
      {done.length === 0 ? (
        <>
          <ResultLine standing={standing} none={say("joint.dryNone")} />
          {standing !== null && standing.open === null && <Begin house={house} joint={joint} />}
        </>
      ) : (
        <Newest house={house} joint={joint} done={done} />
      )}
    </section>
  );
}

/** Begin the work: on joints of this kind, which is soon done, or on the whole house. */
function Begin({ house, joint }: Props): JSX.Element {
  return (
    <div class="row">
      <button type="button" onClick={() => void ask(house, "dryness", { joint: joint.kind })}>
        {say("joint.dryBegin", { kind: term("kind", joint.kind) })}
      </button>
      <button type="button" onClick={() => void ask(house, "dryness")}>
        {say("joint.dryBeginAll")}
      </button>
    </div>
  );
}

/** The newest result that knows this joint; work may have been asked for other kinds alone. */
function Newest(props: Props & { done: readonly Job[] }): JSX.Element {
  const [job, ...older] = props.done;
  const held = useRead(job === undefined ? null : "/api/v1/jobs/{job}/dryness", {
    path: { job: job?.id ?? "" },
  });
  const standing = useStanding("dryness");
  const found = held.value;
  if (job === undefined || held.error !== null)
    return (
      <>
        <Notice>{say("joint.dryNotThis")}</Notice>
        {standing?.open === null && <Begin {...props} />}
      </>
    );
  if (found === null) return <ResultLine standing={null} none="" />;
  const left = found.left_out.find((one) => one.joints.includes(props.joint.id));
  if (left !== undefined) return <Notice>{say("joint.dryLeftOut", { why: left.why })}</Notice>;
  const mine = found.types.find((one) => one.joints.includes(props.joint.id));
  if (mine === undefined) return <Newest key={older[0]?.id ?? ""} {...props} done={older} />;
  return (
    <>
      <ResultLine standing={{ open: null, last: job, done: job }} none="" />
      {!job.is_current && standing?.open === null && <Begin {...props} />}
      <p>
        {say("joint.drySaid", { title: mine.title, n: mine.joints.length, id: mine.drawn })}{" "}
        <a href={addressOf(props.house, "dryness")}>{say("joint.dryAll")}</a>
      </p>
      {found.generated && <p class="soft">{say("joint.dryMadeUp")}</p>}
      {mine.heights.map((height) => (
        <AtHeight key={height.height} height={height} />
      ))}
      <Given found={found} />
    </>
  );
}

function AtHeight({ height }: { height: Height }): JSX.Element {
  const system = units.value;
  const up = height.above_neutral_level_m;
  const where = say(up < 0 ? "joint.dryBelow" : "joint.dryAbove", {
    by: showLength(Math.abs(up), system),
  });
  const curves = curvesOf(height);
  return (
    <>
      {curves.curves.length > 0 && (
        <Plot
          title={where}
          xName={say("joint.dryLeak", { unit: leakUnit(system) })}
          yName={say("joint.dryMargin")}
          xs={curves.xs}
          curves={curves.curves}
          limits={[{ at: 0, axis: "y", name: say("joint.dryLimit") }]}
          showX={(power) => String(Number((10 ** power).toPrecision(2)))}
          showY={(value) => `${Math.round(value)} %`}
        >
          {say("joint.dryRead")}
        </Plot>
      )}
      {height.proposal.length > 0 && (
        <ul>
          {height.proposal.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      )}
      <Table
        title={say("joint.dryFaces", { where })}
        rows={height.options}
        keyOf={(row) => row.face}
        columns={[
          { key: "face", head: say("joint.dryFace"), value: (row) => term("face", row.face) },
          {
            key: "usual", head: say("joint.dryUsual"), number: true,
            value: (row) => showLeak(row.usual_leak_m3_h_m, system),
          },
          { key: "bears", head: say("joint.dryBears"), value: bears },
          {
            key: "margin", head: say("joint.dryLeast"), number: true,
            value: (row) => percent(worstOf(row)?.margin ?? null),
          },
          {
            key: "binds", head: say("joint.dryBinds"),
            value: (row) => bindsAt(worstOf(row)),
          },
          { key: "wettest", head: say("joint.dryWettest"), value: (row) => wettest(height, row) },
        ]}
      />
    </>
  ); // biome-ignore format: one row a column
}

/** What the figures rest on, put away until somebody asks. */
function Given({ found }: { found: Found }): JSX.Element {
  return (
    <details>
      <summary>{say("joint.dryGiven")}</summary>
      <p>{found.weather}</p>
      <p>{found.rooms}</p>
      <ul>
        {[...found.assumed, ...found.limits_of_the_model].map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      <p>{found.proposal_only}</p>
    </details>
  );
}

const LINES = [
  ["inner", "#0072b2", []],
  ["outer", "#b34700", [9, 5]],
  ["both", "#00664c", [2, 4]],
] as const;

/** A curve for each face over the powers of ten of all leakages tried, and rings where usual work lies. */
function curvesOf(height: Height): { xs: readonly number[]; curves: readonly Curve[] } {
  const runs = height.runs.filter(
    (run) => run.converged && run.margin !== null && run.leak_m3_h_m > 0,
  );
  const leaks = [...new Set(runs.map((run) => run.leak_m3_h_m))].sort((a, b) => a - b);
  const at = (face: string, leak: number): number | null => {
    const run = runs.find((one) => one.face === face && one.leak_m3_h_m === leak);
    return run?.margin === undefined || run.margin === null ? null : run.margin * 100;
  };
  const curves: Curve[] = LINES.filter(([face]) => runs.some((run) => run.face === face)).map(
    ([face, color, dash]) => ({
      name: term("face", face),
      color,
      dash,
      values: leaks.map((leak) => at(face, leak)),
    }),
  );
  for (const [face, color] of LINES) {
    const usual = runs.find((run) => run.face === face && run.usual);
    if (usual === undefined) continue;
    curves.push({
      name: say("joint.dryUsualMark", { face: term("face", face) }),
      color,
      mark: "ring",
      values: leaks.map((leak) => (leak === usual.leak_m3_h_m ? at(face, leak) : null)),
    });
  }
  return { xs: leaks.map((leak) => Math.log10(leakIn(leak, units.value))), curves };
}

const worstOf = (option: Option): Option["places"][number] | undefined =>
  [...option.places].sort((a, b) => a.margin - b.margin)[0];

const bindsAt = (place: Option["places"][number] | undefined): string =>
  place === undefined ? "–" : `${place.place}: ${term("limit", place.binding)}`;

const percent = (part: number | null): string =>
  part === null ? "–" : `${Math.round(part * 100)} %`;

function bears(option: Option): string {
  const level = option.tolerable_leak_m3_h_m;
  return level === null ? (option.tolerable_leak_words ?? "–") : showLeak(level, units.value);
}

function wettest(height: Height, option: Option): string {
  const wet = height.runs.find((run) => run.face === option.face && run.usual)?.wettest;
  if (wet === undefined || wet === null) return "–";
  const month = new Date(Date.UTC(2001, wet.month - 1, 15)).toLocaleDateString(language.value, {
    month: "long",
    timeZone: "UTC",
  });
  return say("joint.dryWet", {
    place: wet.place,
    month,
    share: (wet.moisture_kg_kg * 100).toFixed(1),
  });
}
