/** A part of the whole as a ruled bar with its figure. */

import type { JSX } from "preact";
import { showShare } from "../units/flow";

export function ShareBar({ part, most }: { part: number; most: number }): JSX.Element {
  const wide = most > 0 ? Math.max(0, part / most) * 100 : 0;
  return (
    <span class="share">
      <span class="figure">{showShare(part)}</span>
      <svg viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">
        <rect x="0" y="1" width={wide} height="8" />
      </svg>
    </span>
  );
}
