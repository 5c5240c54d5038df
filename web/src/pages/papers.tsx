/** Papers: the packet, and everything that leaves the desk as a file; and all work asked for. */

import type { JSX } from "preact";
import { read, type Schemas, urlOf } from "../api/client";
import type { HousePage } from "../desk";
import { Framed } from "../parts/notices";
import { saveText } from "../parts/save";
import { Sheet } from "../parts/sheet";
import { Table } from "../parts/table";
import { tookSeconds } from "../parts/work_advance";
import { Files, fileUrl, ResultLine, useStanding } from "../parts/work_result";
import { count, say, term, type WordKey } from "../state/say";
import { language, units } from "../state/ways";
import { ask, isOpen, type Job, jobs, stop, workFailure } from "../state/work";
import { showMoment } from "../units/moment";
import { showTime } from "../units/show";

export function Page({ house }: HousePage): JSX.Element {
  const standing = useStanding("report");
  const busy = standing?.open != null;
  return (
    <Sheet title={say("papers.title")} house={house.name}>
      <h2>{say("papers.packet")}</h2>
      <p>{say("papers.lead")}</p>
      <div class="row">
        <button
          type="button"
          class="main"
          disabled={busy}
          onClick={() => void ask(house.id, "report")}
        >
          {say(busy ? "work.underWay" : "papers.go")}
        </button>
      </div>
      <ResultLine standing={standing} none={say("papers.none")} />
      {standing?.done != null && <Files job={standing.done} />}
      <Singles house={house} />
      <Others />
      <AllWork />
    </Sheet>
  );
}

/** Files that are ready at once, from the plan as it is now. */
function Singles({ house }: { house: Schemas["HouseOut"] }): JSX.Element {
  const path = { house: house.id };
  const query = { units: units.value, language: language.value };
  const save = (name: string, type: string, make: () => Promise<string>) => (): void => {
    make().then(
      (text) => saveText(name, text, type),
      (error: unknown) => {
        workFailure.value = error;
      },
    );
  };
  const plan = async (): Promise<string> =>
    (await read("/api/v1/houses/{house}/plan", { path })).text;
  const register = async (): Promise<string> =>
    JSON.stringify(await read("/api/v1/houses/{house}/joints", { path }), null, 1);
  return (
    <>
      <h2>{say("papers.singles")}</h2>
      <ul class="papers">
        <li>
          <button type="button" onClick={save("plan.yaml", "application/yaml", plan)}>
            {say("papers.plan")}
          </button>
          <span>{say("papers.planHelp")}</span>
        </li>
        <li>
          <a
            class="button"
            href={urlOf("/api/v1/houses/{house}/order.xlsx", { path, query })}
            download
          >
            {say("papers.workbook")}
          </a>
          <span>{say("papers.workbookHelp")}</span>
        </li>
        <li>
          <a
            class="button"
            href={urlOf("/api/v1/houses/{house}/order.csv", { path, query })}
            download
          >
            {say("papers.orderCsv")}
          </a>
          <span>{say("papers.orderCsvHelp")}</span>
        </li>
        <li>
          <button type="button" onClick={save("joints.json", "application/json", register)}>
            {say("papers.register")}
          </button>
          <span>{say("papers.registerHelp")}</span>
        </li>
      </ul>
    </>
  );
}

/** The newest files of the other pages' work. */
function Others(): JSX.Element | null {
  const found = ["days", "dryness", "fan", "hunt"]
    .map((kind) => (jobs.value ?? []).find((job) => job.kind === kind && job.state === "done"))
    .filter((job): job is Job => job !== undefined && job.files.length > 1);
  if (found.length === 0) return null;
  return (
    <>
      <h2>{say("papers.others")}</h2>
      {found.map((job) => (
        <section key={job.id} aria-label={term("work.kind", job.kind)}>
          <h3>
            {term("work.kind", job.kind)}{" "}
            {!job.is_current && <Framed word={say("papers.old")} kind="attention" />}
          </h3>
          <Files job={job} />
        </section>
      ))}
    </>
  );
}

function AllWork(): JSX.Element {
  return (
    <Table
      title={say("papers.work")}
      rows={jobs.value ?? []}
      keyOf={(job) => job.id}
      file="work"
      empty={say("papers.noWork")}
      columns={[
        {
          key: "when",
          head: say("papers.asked"),
          exported: "asked_at",
          value: (job) => job.made_at,
          cell: (job) => showMoment(job.made_at, language.value),
        },
        {
          key: "what",
          head: say("papers.what"),
          exported: "work",
          value: (job) => term("work.kind", job.kind),
        },
        {
          key: "state",
          head: say("papers.state"),
          exported: "state",
          value: (job) => say(`work.state.${job.state}` as WordKey),
        },
        {
          key: "revision",
          head: say("block.revision"),
          exported: "revision",
          number: true,
          value: (job) => job.revision,
        },
        {
          key: "took",
          head: say("papers.took"),
          exported: "took_s",
          number: true,
          value: tookSeconds,
          cell: (job) =>
            job.ended_at === null || job.started_at === null ? "–" : showTime(tookSeconds(job)),
        },
        {
          key: "files",
          head: say("papers.files"),
          value: (job) => job.files.length,
          cell: (job) =>
            isOpen(job) ? (
              <button type="button" onClick={() => void stop(job)}>
                {say("work.stop")}
              </button>
            ) : (
              <details class="reach">
                <summary>{count("papers.file", "papers.filesN", job.files.length)}</summary>
                {job.files.map((file) => (
                  <div key={file.name}>
                    <a href={fileUrl(job, file.name)} download={file.name} class="reach">
                      {file.name}
                    </a>
                  </div>
                ))}
                {job.problems.map((problem) => (
                  <p key={problem.sentence}>{problem.sentence}</p>
                ))}
              </details>
            ),
        },
      ]}
    />
  );
}
