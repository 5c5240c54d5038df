/** A list of which only the first lines stand open; the others are a touch away. */

import type { ComponentChildren, JSX } from "preact";
import { say } from "../state/say";

interface Props {
  readonly lines: readonly { readonly key: string; readonly line: ComponentChildren }[];
  /** Lines that stand open. */
  readonly first?: number;
}

/** Lines that stand open: what a phone shows beside a button. Our own choice. */
const FIRST = 5;

export function Folded({ lines, first = FIRST }: Props): JSX.Element {
  const most = lines.length <= first + 1 ? lines.length : first;
  const row = ({ key, line }: Props["lines"][number]): JSX.Element => <li key={key}>{line}</li>;
  return (
    <>
      <ul>{lines.slice(0, most).map(row)}</ul>
      {lines.length > most && (
        <details class="fold">
          <summary>{say("changes.more", { n: lines.length - most })}</summary>
          <ul>{lines.slice(most).map(row)}</ul>
        </details>
      )}
    </>
  );
}
