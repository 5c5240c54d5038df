/** What is being written on top of a revision: kept on the server a moment after each change. */

import { useEffect, useRef } from "preact/hooks";
import { put, type Schemas } from "../api/client";

type Source = Schemas["DraftIn"]["source"];

const PAUSE = 900;

/** Keep `source` as the draft of a house; nothing is sent while it is null. */
export function useDraft(
  house: string,
  base: number,
  source: Source | null,
  onKept: (saved: string | null) => void,
): void {
  const sent = useRef("");
  const key = source === null ? "" : JSON.stringify(source);
  useEffect(() => {
    if (source === null || key === sent.current) return;
    const timer = setTimeout(() => {
      sent.current = key;
      put("/api/v1/houses/{house}/draft", { path: { house }, body: { base, source } }).then(
        (kept) => onKept(kept.saved_at),
        () => {
          sent.current = "";
          onKept(null);
        },
      );
    }, PAUSE);
    return () => clearTimeout(timer);
  }, [key]);
}
