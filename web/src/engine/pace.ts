/** How finely to draw: coarser while a weak machine is kept busy by turning, full once it rests. */

const SLOW = 50;
const RESTED = 400;
const COARSEST = 0.35;

export class Pace {
  private last = 0;
  private fine = 1;
  private timer: ReturnType<typeof setTimeout> | undefined;

  /** `onRest` is called when full fineness may come back. */
  constructor(private readonly onRest: () => void) {}

  /** Part of the full fineness to draw the picture of moment `now` with. [ms] */
  next(now: number): number {
    const gap = now - this.last;
    this.last = now;
    if (gap < RESTED && gap > SLOW) this.fine = Math.max(COARSEST, this.fine * 0.7);
    clearTimeout(this.timer);
    if (this.fine < 1) this.timer = setTimeout(() => this.rest(), RESTED);
    return this.fine;
  }

  stop(): void {
    clearTimeout(this.timer);
  }

  private rest(): void {
    this.fine = 1;
    this.last = 0;
    this.onRest();
  }
}
