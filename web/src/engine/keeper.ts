/** Keeps the view where no page is: fetches scenes, opens them, draws, and answers in messages. */

import type { WebGLRenderer } from "three";
import { type Problem, problemsIn } from "../api/problems";
import type { Told } from "./picture";
import { type PackedScene, readScene, type ToldScene, tellScene } from "./read";
import type { Pick } from "./types";
import { rendererFor, View } from "./view";

/** What may be asked of the view while it is kept elsewhere. */
export type Acts = Only<
  View,
  | "size" | "paint" | "setCut" | "setApart" | "setStanding" | "setNodes" | "select" | "focus"
  | "turnTo" | "fit" | "turn" | "move" | "near" | "tap" | "hover"
>; // biome-ignore format: one list

type Only<T, K extends keyof T> = { [P in K]: T[P] };
export type Act = { [P in keyof Acts]: readonly [P, ...Parameters<Acts[P]>] }[keyof Acts];

export type Asked =
  | { readonly open: HTMLCanvasElement | OffscreenCanvas; readonly still: boolean }
  | { readonly load: string }
  | { readonly act: Act }
  | { readonly close: true };

export type Answered =
  | { readonly scene: ToldScene }
  | { readonly refused: { readonly status: number; readonly problems: readonly Problem[] } }
  | { readonly broken: true }
  | { readonly pick: Pick | null }
  | { readonly over: boolean }
  | { readonly drawn: Told };

/** Acts that are told again to the view of another scene, the last of each. */
const LASTING: readonly Act[0][] = [
  "size", "setCut", "setApart", "setStanding", "setNodes",
]; // biome-ignore format: one list

export class Keeper {
  private renderer: WebGLRenderer | null = null;
  private view: View | null = null;
  private still = false;
  private wanted = "";
  private readonly lasting = new Map<Act[0], Act>();
  private hovered: Act | null = null;

  constructor(private readonly answer: (answered: Answered) => void) {}

  take(asked: Asked): void {
    if ("open" in asked) this.open(asked.open, asked.still);
    else if ("load" in asked) void this.load(asked.load);
    else if ("close" in asked) this.close();
    else this.act(asked.act);
  }

  private open(canvas: HTMLCanvasElement | OffscreenCanvas, still: boolean): void {
    this.still = still;
    try {
      this.renderer = rendererFor(canvas);
    } catch {
      this.answer({ broken: true });
    }
  }

  private async load(url: string): Promise<void> {
    this.wanted = url;
    const answer = await fetch(url, { headers: { Accept: "application/json" } }).catch(() => null);
    const text = answer === null ? "" : await answer.text();
    if (this.wanted !== url) return;
    if (answer === null || !answer.ok) {
      this.answer({ refused: { status: answer?.status ?? 0, problems: problemsIn(text) } });
      return;
    }
    const packed = JSON.parse(text) as PackedScene;
    this.answer({ scene: tellScene(packed) });
    if (this.renderer === null) return;
    this.view?.close();
    this.view = new View(
      this.renderer,
      readScene(packed),
      {
        onPick: (pick) => this.answer({ pick }),
        onOver: (over) => this.answer({ over }),
        onDrawn: (drawn) => this.answer({ drawn }),
      },
      this.still,
    );
    for (const act of this.lasting.values()) this.act(act);
  }

  private act(act: Act): void {
    const [name, ...given] = act;
    if (LASTING.includes(name) || name === "paint" || name === "select")
      this.lasting.set(name, act);
    if (name === "hover") {
      if (this.hovered === null) setTimeout(() => this.hover());
      this.hovered = act;
      return;
    }
    const view = this.view as unknown as Record<string, (...given: unknown[]) => void> | null;
    view?.[name]?.(...given);
  }

  /** Where the pointer is now; where it was meanwhile does not matter. */
  private hover(): void {
    const act = this.hovered;
    this.hovered = null;
    if (act?.[0] === "hover") this.view?.hover(act[1], act[2]);
  }

  private close(): void {
    this.wanted = "";
    this.view?.close();
    this.renderer?.dispose();
    this.view = null;
  }
}
