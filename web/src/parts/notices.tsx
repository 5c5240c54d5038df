/** What went wrong or needs a look, in the server's sentences. */

import type { ComponentChildren, JSX } from "preact";
import { type Problem, Refused } from "../api/client";
import { say, term } from "../state/say";

interface ProblemsProps {
  readonly problems: readonly Problem[];
  /** Lead to a line of the text, where there is one to lead to. */
  readonly onLine?: (line: number) => void;
}

export function Problems({ problems, onLine }: ProblemsProps): JSX.Element | null {
  if (problems.length === 0) return null;
  return (
    <div class="notice bad" role="alert">
      <ul>
        {problems.map((problem) => (
          <li key={`${problem.subject}${problem.sentence}${problem.line ?? ""}`}>
            <Line line={problem.line ?? null} {...(onLine === undefined ? {} : { onLine })} />
            {problem.sentence}
            {problem.remedy !== "" && (
              <span class="soft"> {say("problem.todo", { remedy: problem.remedy })}</span>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}

function Line({
  line,
  onLine,
}: {
  line: number | null;
  onLine?: (line: number) => void;
}): JSX.Element | null {
  if (line === null) return null;
  if (onLine === undefined) return <span class="figure">{say("problem.line", { line })} </span>;
  return (
    <button type="button" class="plain" onClick={() => onLine(line)}>
      {say("problem.line", { line })}
    </button>
  );
}

/** A call that failed: the server's sentences, or that the server does not answer. */
export function Failure({ error }: { error: unknown }): JSX.Element {
  if (error instanceof Refused && error.problems.length > 0)
    return <Problems problems={error.problems} />;
  const away = error instanceof Refused && error.status === 0;
  return (
    <div class="notice bad" role="alert">
      <p>{away ? say("problem.away") : say("problem.unknown")}</p>
    </div>
  );
}

export function Framed({ word, kind = "" }: { word: string; kind?: string }): JSX.Element {
  return <span class={`framed ${kind}`}>{word}</span>;
}

/** The framed word for how grave a finding is. */
export function Gravity({ severity }: { severity: string }): JSX.Element | null {
  if (severity === "") return null;
  const kind = severity === "stop" ? "stop" : severity === "attention" ? "attention" : "soft";
  return <Framed word={term("severity", severity)} kind={kind} />;
}

export function Notice({ children }: { children: ComponentChildren }): JSX.Element {
  return <div class="notice">{children}</div>;
}

export function Waiting(): JSX.Element {
  return (
    <p role="status" class="soft">
      {say("wait")}
    </p>
  );
}
