/** How far running work is, and how long it took. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect } from "preact/hooks";
import { say, term } from "../state/say";
import type { Job } from "../state/work";
import { showTime } from "../units/show";

/** How far running work is: a bar where it is known, else the time it has taken. */
export function Advance({ job, name }: { job: Job; name: string }): JSX.Element {
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
      <span class="soft">{phaseWords(job.phase)}</span>
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

/** A phase in the reader's language: a stage the catalogs know, a count of runs, or as told. */
export function phaseWords(phase: string): string {
  const runs = /^(\d+) of (?:about )?(\d+) runs$/.exec(phase);
  if (runs !== null) return say("work.ofRuns", { n: runs[1] ?? "", all: runs[2] ?? "" });
  if (phase === "") return "";
  const [name = "", rest] = phase.split(": ");
  const known = term("phase", name.replaceAll(" ", "_"));
  return rest === undefined ? known : `${known}: ${rest}`;
}
