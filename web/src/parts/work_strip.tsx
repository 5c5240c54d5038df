/** The strip of work under way: on every page of a house, after a reload too. */

import type { JSX } from "preact";
import { addressOf, route } from "../state/route";
import { say, term, type WordKey } from "../state/say";
import {
  askAgain,
  isOpen,
  type Job,
  jobs,
  putAway,
  shownWork,
  stop,
  workFailure,
} from "../state/work";
import { showTime } from "../units/show";
import { Failure, Framed, Problems } from "./notices";
import { Advance, tookSeconds } from "./work_advance";

const PAGE_OF: Readonly<Record<string, string>> = {
  days: "days",
  dryness: "dryness",
  forecast: "air",
  fan: "air",
  hunt: "search",
  report: "papers",
};

export function WorkStrip(): JSX.Element | null {
  const rows = shownWork(jobs.value ?? [], putAway.value);
  const failure = workFailure.value;
  if (rows.length === 0 && failure === null) return null;
  return (
    <section class="work" aria-label={say("work.name")}>
      {failure !== null && <Failure error={failure} />}
      <ul>
        {rows.map((job) => (
          <li key={job.id}>
            <Row job={job} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function Row({ job }: { job: Job }): JSX.Element {
  const name = term("work.kind", job.kind);
  const page = PAGE_OF[job.kind];
  const away = (): void => {
    putAway.value = new Set([...putAway.value, job.id]);
  };
  return (
    <>
      <span class="what">
        <Framed word={say(`work.state.${job.state}` as WordKey)} kind={LOOK[job.state] ?? ""} />{" "}
        <strong>{name}</strong>
      </span>
      {job.state === "running" && <Advance job={job} name={name} />}
      {job.state === "queued" && <span class="soft grow">{say("work.waits")}</span>}
      {job.state === "interrupted" && <span class="grow">{say("work.brokenOff")}</span>}
      {job.state === "failed" && (
        <div class="grow">
          <Problems problems={job.problems} />
        </div>
      )}
      {job.state === "done" && (
        <span class="grow" role="status">
          {say("work.took", { time: showTime(tookSeconds(job)) })}
        </span>
      )}
      <span class="row">
        {isOpen(job) && (
          <button
            type="button"
            aria-label={say("work.stopOne", { what: name })}
            onClick={() => void stop(job)}
          >
            {say("work.stop")}
          </button>
        )}
        {(job.state === "interrupted" || job.state === "failed") && job.kind !== "fan" && (
          <button type="button" onClick={() => void askAgain(job)}>
            {say("work.again")}
          </button>
        )}
        {job.state === "done" && page !== undefined && route.value.page !== page && (
          <a class="button" href={addressOf(job.house, page)} onClick={away}>
            {say("work.see")}
          </a>
        )}
        {!isOpen(job) && (
          <button type="button" aria-label={say("work.awayOne", { what: name })} onClick={away}>
            {say("work.away")}
          </button>
        )}
      </span>
    </>
  );
}

const LOOK: Readonly<Record<string, string>> = {
  done: "done",
  failed: "stop",
  interrupted: "attention",
  queued: "soft",
};
