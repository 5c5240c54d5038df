/** Calls to the server, typed by its own description. What goes wrong comes back as its sentences. */

import { language, units } from "../state/ways";
import { type Problem, problemsIn } from "./problems";
import type { components, paths } from "./schema";

export type Schemas = components["schemas"];
export type { Problem };

type Method = "get" | "post" | "put" | "delete";
type Operation<P extends keyof paths, M extends Method> =
  paths[P] extends Record<M, infer O> ? O : never;
export type PathsOf<M extends Method> = {
  [P in keyof paths]: [Operation<P, M>] extends [never]
    ? never
    : undefined extends Operation<P, M>
      ? never
      : P;
}[keyof paths];
type JsonOf<T> = T extends { content: { "application/json": infer J } } ? J : undefined;
export type Answer<P extends keyof paths, M extends Method> =
  Operation<P, M> extends { responses: infer R }
    ? JsonOf<R[keyof R & (200 | 201 | 202 | 204)]>
    : never;
export type BodyOf<P extends keyof paths, M extends Method> =
  Operation<P, M> extends { requestBody?: infer B } ? JsonOf<NonNullable<B>> : undefined;

export interface Filled<P extends keyof paths, M extends Method> {
  readonly path?: Readonly<Record<string, string | number>>;
  readonly query?: Readonly<Record<string, string | number | boolean | null | undefined>>;
  readonly body?: BodyOf<P, M>;
  readonly signal?: AbortSignal;
}

/** Everything that was wrong with a call, in the server's sentences. */
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly problems: readonly Problem[],
  ) {
    super(problems.map((problem) => problem.sentence).join(" "));
  }
}

/** The address of a route with its parts filled in. */
export function urlOf(
  path: string,
  filled: Pick<Filled<keyof paths, Method>, "path" | "query"> = {},
): string {
  const place = path.replace(/\{(\w+)\}/g, (_, name: string) =>
    encodeURIComponent(String(filled.path?.[name] ?? "")),
  );
  const query = new URLSearchParams();
  for (const [key, value] of Object.entries(filled.query ?? {})) {
    if (value !== null && value !== undefined) query.set(key, String(value));
  }
  const text = query.toString();
  return text === "" ? place : `${place}?${text}`;
}

export const read = <P extends PathsOf<"get">>(path: P, filled: Filled<P, "get"> = {}) =>
  call(path, "get", filled);
export const post = <P extends PathsOf<"post">>(path: P, filled: Filled<P, "post"> = {}) =>
  call(path, "post", filled);
export const put = <P extends PathsOf<"put">>(path: P, filled: Filled<P, "put"> = {}) =>
  call(path, "put", filled);
export const remove = <P extends PathsOf<"delete">>(path: P, filled: Filled<P, "delete"> = {}) =>
  call(path, "delete", filled);

/** How the server is to speak to this reader: it answers in these words and units. */
export const spoken = (): Record<string, string> => ({
  "Accept-Language": language.peek(),
  "Seamwright-Units": units.peek(),
});

async function call<P extends keyof paths, M extends Method>(
  path: P,
  method: M,
  filled: Filled<P, M>,
): Promise<Answer<P, M>> {
  const headers: Record<string, string> = { Accept: "application/json", ...spoken() };
  if (filled.body !== undefined) headers["Content-Type"] = "application/json";
  const answer = await fetch(urlOf(path, filled), {
    method: method.toUpperCase(),
    headers,
    ...(filled.body === undefined ? {} : { body: JSON.stringify(filled.body) }),
    ...(filled.signal === undefined ? {} : { signal: filled.signal }),
  }).catch((error: unknown) => {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new Refused(0, []);
  });
  const text = await answer.text();
  if (!answer.ok) throw new Refused(answer.status, problemsIn(text));
  return (text === "" ? undefined : JSON.parse(text)) as Answer<P, M>;
}
