/** What the server makes of the drawing as it stands, a moment after each change. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect } from "preact/hooks";
import { post, type Schemas } from "../api/client";
import { Failure, Problems } from "../parts/notices";
import { say } from "../state/say";
import { units } from "../state/ways";
import { showLength } from "../units/show";

export type Source = Schemas["ValidateIn"]["source"];
type Validated = Schemas["Validated"];

const PAUSE = 350;

interface Props {
  readonly source: Source;
  readonly onVerdict: (verdict: Validated | null) => void;
  readonly onLine?: (line: number) => void;
}

export function Verdict({ source, onVerdict, onLine }: Props): JSX.Element {
  const verdict = useSignal<Validated | null>(null);
  const failure = useSignal<unknown>(null);
  const busy = useSignal(true);
  const key = JSON.stringify(source);
  useEffect(() => {
    const stop = new AbortController();
    busy.value = true;
    onVerdict(null);
    const timer = setTimeout(() => {
      post("/api/v1/validate", {
        body: { source },
        query: { units: units.value },
        signal: stop.signal,
      })
        .then((answer) => {
          verdict.value = answer;
          failure.value = null;
          busy.value = false;
          onVerdict(answer);
        })
        .catch((error: unknown) => {
          if (stop.signal.aborted) return;
          failure.value = error;
          busy.value = false;
        });
    }, PAUSE);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [key, units.value]);
  const now = verdict.value;
  const counted = now?.counted;
  return (
    <section class="verdict" aria-label={say("verdict.name")} aria-busy={busy.value}>
      <p role="status">
        {busy.value && now === null && say("wait")}
        {counted !== null &&
          counted !== undefined &&
          say("verdict.counted", {
            panels: counted.panels,
            joints: counted.joints,
            nodes: counted.nodes,
            length: showLength(counted.joint_length_m, units.value),
          })}
        {counted !== null &&
          counted !== undefined &&
          counted.breaks > 0 &&
          ` ${say("verdict.breaks", { n: counted.breaks })}`}
        {now !== null && !now.usable && say("verdict.unusable")}
      </p>
      {failure.value !== null && <Failure error={failure.value} />}
      {now !== null && (
        <Problems problems={now.problems} {...(onLine === undefined ? {} : { onLine })} />
      )}
      {now !== null && now.notes.length > 0 && (
        <details>
          <summary>{say("verdict.notes", { n: now.notes.length })}</summary>
          <ul>
            {now.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}
