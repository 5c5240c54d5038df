/** Long work of the house: what was asked for, how far it is. Asked of the server again while anything is under way. */

import { effect, signal } from "@preact/signals";
import { useEffect, useState } from "preact/hooks";
import { post, read, type Schemas } from "../api/client";
import { changed } from "./held";
import { route } from "./route";
import { language } from "./ways";

export type Job = Schemas["JobOut"];
export type Wishes = Schemas["Wishes"];

/** Milliseconds between two questions while work is under way, and while none is. */
const SOON = 600;
const LATE = 15_000;

/** The work of the house on the page, the newest first; null before the first answer. */
export const jobs = signal<readonly Job[] | null>(null);

/** What went wrong when work was asked for or stopped. */
export const workFailure = signal<unknown>(null);

/** Ended work that was put away, by id. */
export const putAway = signal<ReadonlySet<string>>(new Set());

/** Work that was seen under way by this page: its end is news, that of older work is not. */
const seen = new Set<string>();

export const isOpen = (job: Job): boolean => job.state === "queued" || job.state === "running";

let timer: ReturnType<typeof setTimeout> | undefined;
let house: string | null = null;

async function look(): Promise<void> {
  clearTimeout(timer);
  const asked = house;
  if (asked === null) return;
  let wait = LATE;
  try {
    const found = (await read("/api/v1/houses/{house}/jobs", { path: { house: asked } })).jobs;
    if (asked !== house) return;
    take(found);
    if (found.some(isOpen)) wait = SOON;
  } catch {
    wait = 2000;
  }
  clearTimeout(timer);
  if (asked === house) timer = setTimeout(() => void look(), wait);
}

/** Take what the server says; tell the pages when work that was under way has ended. */
function take(found: readonly Job[]): void {
  const before = jobs.peek();
  for (const job of found) if (isOpen(job)) seen.add(job.id);
  const ended = found.some(
    (job) => !isOpen(job) && before?.some((old) => old.id === job.id && isOpen(old)),
  );
  if (JSON.stringify(before) !== JSON.stringify(found)) jobs.value = found;
  if (ended) changed();
}

effect(() => {
  const now = route.value.house;
  if (now === house) return;
  house = now;
  jobs.value = null;
  void look();
});
globalThis.addEventListener?.("focus", () => void look());
effect(() => {
  // What the work says is told in the reader's language.
  if (language.value.length > 0 && house !== null) void look();
});

/** Ask for work on the house as it is now. */
export async function ask(
  houseId: string,
  kind: string,
  wishes: Partial<Wishes> = {},
): Promise<void> {
  workFailure.value = null;
  try {
    const body = { kind, wishes } as Schemas["JobIn"];
    const job = await post("/api/v1/houses/{house}/jobs", { path: { house: houseId }, body });
    seen.add(job.id);
    jobs.value = [job, ...(jobs.peek() ?? [])];
  } catch (error) {
    workFailure.value = error;
  }
  void look();
}

/** Ask once more for work that was broken off or failed, with the same wishes. */
export async function askAgain(job: Job): Promise<void> {
  try {
    const wishes = await read("/api/v1/jobs/{job}/wishes", { path: { job: job.id } });
    putAway.value = new Set([...putAway.value, job.id]);
    await ask(job.house, job.kind, told(wishes));
  } catch (error) {
    workFailure.value = error;
  }
}

/** Stop work, or never begin it. */
export async function stop(job: Job): Promise<void> {
  try {
    await post("/api/v1/jobs/{job}/cancel", { path: { job: job.id } });
  } catch (error) {
    workFailure.value = error;
  }
  void look();
}

/** What to show in the strip: what is under way, what ended before our eyes, what was broken off. */
export function shownWork(all: readonly Job[], away: ReadonlySet<string>): readonly Job[] {
  const newest = new Set<string>();
  return all.filter((job) => {
    const first = !newest.has(job.kind);
    newest.add(job.kind);
    if (isOpen(job)) return true;
    if (away.has(job.id)) return false;
    return seen.has(job.id) ? job.state !== "cancelled" : first && job.state === "interrupted";
  });
}

/** The work of a kind that stands: what is under way, the newest that ended, the newest result. */
export interface Standing {
  readonly open: Job | null;
  readonly last: Job | null;
  readonly done: Job | null;
}

export function standingOf(all: readonly Job[], kind: string): Standing {
  const mine = all.filter((job) => job.kind === kind);
  return {
    open: mine.find(isOpen) ?? null,
    last: mine.find((job) => !isOpen(job)) ?? null,
    done: mine.find((job) => job.state === "done") ?? null,
  };
}

/** What was asked for with a piece of work; null while it is not known. */
export function useWishes(job: Job | null): Partial<Wishes> | null {
  const id = job?.id ?? null;
  const [held, setHeld] = useState<{ id: string; wishes: Partial<Wishes> } | null>(null);
  useEffect(() => {
    if (id === null) return;
    let alive = true;
    read("/api/v1/jobs/{job}/wishes", { path: { job: id } }).then(
      (wishes) => alive && setHeld({ id, wishes: told(wishes) }),
      () => alive && setHeld({ id, wishes: {} }),
    );
    return () => {
      alive = false;
    };
  }, [id]);
  return held !== null && held.id === id ? held.wishes : null;
}

/** Wishes without what was left to the server. */
export function told(wishes: Wishes): Partial<Wishes> {
  const kept = Object.entries(wishes).filter(
    ([, value]) => value !== null && !(Array.isArray(value) && value.length === 0),
  );
  return Object.fromEntries(kept) as Partial<Wishes>;
}
