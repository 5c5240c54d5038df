/** What a page on long work shows around its result: how it stands, and for which plan it holds. */

import type { JSX } from "preact";
import { say, term } from "../state/say";
import { language } from "../state/ways";
import { type Job, jobs, type Standing, standingOf } from "../state/work";
import { showMoment } from "../units/moment";
import { Notice, Waiting } from "./notices";
import { Advance } from "./work_advance";

/** How the work of a kind stands at this house. */
export function useStanding(kind: string): Standing | null {
  const all = jobs.value;
  return all === null ? null : standingOf(all, kind);
}

interface Props {
  readonly standing: Standing | null;
  /** What to read where nothing was worked out yet. */
  readonly none: string;
}

/** One line above a result: when it was worked out, and whether the plan changed since. */
export function ResultLine({ standing, none }: Props): JSX.Element {
  if (standing === null) return <Waiting />;
  const { open, done } = standing;
  return (
    <>
      {done === null && open === null && <Notice>{none}</Notice>}
      {open !== null && <UnderWay job={open} />}
      {done !== null && <Made job={done} />}
    </>
  );
}

/** Work under way, told where its result will stand: the strip may be out of sight. */
function UnderWay({ job }: { job: Job }): JSX.Element {
  const name = term("work.kind", job.kind);
  return (
    <div class="notice under-way">
      {job.state === "running" ? (
        <Advance job={job} name={name} />
      ) : (
        <span class="soft">{say("work.waits")}</span>
      )}
      <p>{say("result.comes")}</p>
    </div>
  );
}

function Made({ job }: { job: Job }): JSX.Element {
  const when = showMoment(job.ended_at ?? job.made_at, language.value);
  return job.is_current ? (
    <p class="soft">{say("result.made", { when, revision: job.revision })}</p>
  ) : (
    <div class="notice bad">
      <p>{say("result.stale", { when, revision: job.revision })}</p>
    </div>
  );
}

/** Links to the files that work brought back. */
export function Files({ job }: { job: Job }): JSX.Element | null {
  const files = job.files.filter((file) => file.name !== "result.json");
  if (files.length === 0) return null;
  return (
    <div class="row files">
      {files.map((file) => (
        <a
          key={file.name}
          class="button"
          href={fileUrl(job, file.name)}
          download={file.name}
          title={file.name}
        >
          {fileWords(file.name)}
        </a>
      ))}
    </div>
  );
}

/** What a file is, or its bare name where it has no words of its own. */
export const fileWords = (name: string): string => {
  const chart = /^dryness-(.+)\.svg$/.exec(name);
  return chart === null
    ? term("paper", name)
    : say("paper.chart_of_dryness", { name: (chart[1] ?? "").replace("-", ", ") });
};

export const fileUrl = (job: Job, name: string): string =>
  `/api/v1/jobs/${encodeURIComponent(job.id)}/files/${encodeURIComponent(name)}`;
