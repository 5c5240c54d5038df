/** What was read from the server, held until something changes. */

import { signal } from "@preact/signals";
import { useEffect, useState } from "preact/hooks";
import { type Answer, type Filled, type PathsOf, read, urlOf } from "../api/client";
import { language, units } from "./ways";

/** Goes up with every change made here; what was read before is read anew. */
export const changes = signal(0);

export function changed(): void {
  changes.value += 1;
}

export interface Held<T> {
  readonly value: T | null;
  readonly error: unknown;
  readonly loading: boolean;
}

/** Answers that hold no words: they are the same for every reader. */
const WORDLESS = /\/(scene|joints|joint-values|plan|draft|records)$/;

/** The same for everybody, or for whoever reads in this language and these units. */
const readerOf = (path: string): string =>
  WORDLESS.test(path) ? "" : `${language.value} ${units.value} `;

const kept = new Map<string, { at: number; answer: Promise<unknown> }>();

/** Read once per change, whoever asks. */
export function readHeld<P extends PathsOf<"get">>(
  path: P,
  filled: Filled<P, "get">,
): Promise<Answer<P, "get">> {
  const url = readerOf(path) + urlOf(path, filled);
  const old = kept.get(url);
  if (old !== undefined && old.at === changes.peek())
    return old.answer as Promise<Answer<P, "get">>;
  const answer = read(path, filled);
  kept.set(url, { at: changes.peek(), answer });
  answer.catch(() => kept.delete(url));
  return answer;
}

/** What a route answers; the old answer stays while the new one is on its way. Null path: nothing. */
export function useRead<P extends PathsOf<"get">>(
  path: P | null,
  filled: Filled<P, "get"> = {},
): Held<Answer<P, "get">> {
  const url = path === null ? null : urlOf(path, filled);
  const at = changes.value;
  const reader = path === null ? "" : readerOf(path);
  const [held, setHeld] = useState<Held<Answer<P, "get">> & { url: string | null }>({
    value: null, error: null, loading: true, url: null,
  }); // biome-ignore format: one row
  useEffect(() => {
    if (path === null) return;
    let alive = true;
    readHeld(path, filled)
      .then((value) => alive && setHeld({ value, error: null, loading: false, url }))
      .catch((error: unknown) => alive && setHeld({ value: null, error, loading: false, url }));
    return () => {
      alive = false;
    };
  }, [url, at, reader]);
  return held.url === url || path === null ? held : { value: null, error: null, loading: true };
}
