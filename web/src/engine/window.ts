/** The page's side of the view: hands and wishes go to the keeper, what it finds comes back. */

import { listen } from "./hands";
import type { Act, Answered, Asked } from "./keeper";
import type { Told } from "./picture";

/** The last pictures of which the work is kept, to measure it. */
const KEPT = 240;

export class ModelWindow {
  /** The page's own work in each of the last pictures, and what was sent to be drawn. */
  readonly pictures: Told[] = [];
  private readonly stop: () => void;
  private readonly watcher: ResizeObserver;
  private readonly worker: Worker | null;
  private keeper: { take(asked: Asked): void } | null = null;
  private waiting: Asked[] = [];
  private closed = false;

  constructor(
    private readonly canvas: HTMLCanvasElement,
    private readonly onAnswer: (answered: Answered) => void,
    still: boolean,
  ) {
    this.worker = canDrawAway()
      ? new Worker(new URL("./keeper_worker.ts", import.meta.url), { type: "module" })
      : null;
    if (this.worker === null) void this.keepHere(still);
    else this.keepAway(this.worker, still);
    this.stop = listen(canvas, {
      turn: (dx, dy) => this.act("turn", dx, dy),
      move: (dx, dy) => this.act("move", dx, dy),
      near: (factor, x, y) => this.act("near", factor, x, y),
      tap: (x, y) => this.act("tap", x, y),
      hover: (x, y) => this.act("hover", x, y),
      fit: () => this.act("fit"),
    });
    this.watcher = new ResizeObserver(() => this.resize());
    this.watcher.observe(canvas);
    this.resize();
  }

  /** Fetch and draw a scene. */
  load(url: string): void {
    this.ask({ load: new URL(url, location.href).href });
  }

  act(...act: Act): void {
    this.ask({ act });
  }

  close(): void {
    this.closed = true;
    this.stop();
    this.watcher.disconnect();
    this.keeper?.take({ close: true });
    this.worker?.terminate();
  }

  private resize(): void {
    this.act("size", this.canvas.clientWidth, this.canvas.clientHeight, window.devicePixelRatio);
  }

  private ask(asked: Asked): void {
    if (this.keeper === null) this.waiting.push(asked);
    else this.keeper.take(asked);
  }

  private keepAway(worker: Worker, still: boolean): void {
    worker.addEventListener("message", (event: MessageEvent<Answered>) => this.hear(event.data));
    worker.addEventListener("error", () => this.hear({ broken: true }));
    const open = this.canvas.transferControlToOffscreen();
    worker.postMessage({ open, still } satisfies Asked, [open]);
    this.keeper = { take: (asked) => worker.postMessage(asked) };
  }

  /** Where a canvas cannot be drawn on from a worker, the keeper sits with the page. */
  private async keepHere(still: boolean): Promise<void> {
    const { Keeper } = await import("./keeper");
    if (this.closed) return;
    this.keeper = new Keeper((answered) => this.hear(answered));
    this.keeper.take({ open: this.canvas, still });
    for (const asked of this.waiting.splice(0)) this.keeper.take(asked);
  }

  private hear(answered: Answered): void {
    if (this.closed) return;
    if ("over" in answered) this.canvas.style.cursor = answered.over ? "pointer" : "grab";
    else if ("drawn" in answered) {
      this.pictures.push(answered.drawn);
      if (this.pictures.length > KEPT) this.pictures.shift();
    } else this.onAnswer(answered);
  }
}

function canDrawAway(): boolean {
  return (
    typeof Worker === "function" &&
    typeof HTMLCanvasElement.prototype.transferControlToOffscreen === "function"
  );
}
