/** The strip of work under way: on every page of a house, after a reload too. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect } from "preact/hooks";
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

/** How far running work is: a bar where it is known, else the time it has taken. */
function Advance({ job, name }: { job: Job; name: string }): JSX.Element {
  const now = useSignal(Date.now());
  useEffect(() => {
    const tick = setInterval(() => {
      now.value = Date.now();
    }, 1000);
    return () => clearInterval(tick);
  }, []);
  const seconds = Math.max(0, (now.value - at(job.started_at)) / 1000);
  const known = job.progress > 0;
  return (
    <span class="advance grow">
      {known ? (
        <progress aria-label={name} max="1" value={job.progress} />
      ) : (
        <progress aria-label={name} />
      )}
      <span class="figure">{showTime(Math.round(seconds))}</span>
      <span class="soft">{job.phase === "begins" ? say("work.begins") : job.phase}</span>
    </span>
  );
}

const at = (told: string | null): number => {
  if (told === null) return Date.now();
  return new Date(/[zZ]|[+-]\d\d:\d\d$/.test(told) ? told : `${told}Z`).getTime();
};

/** How long ended work ran. [s] */
export function tookSeconds(job: Job): number {
  return job.started_at === null || job.ended_at === null
    ? 0
    : Math.max(0, Math.round((at(job.ended_at) - at(job.started_at)) / 1000));
}
