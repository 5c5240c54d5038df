/** How finely to draw: coarser while a weak machine is kept busy by turning, full once it rests. */

const SLOW = 50;
const RESTED = 400;
/** Pictures farther apart than this do not belong to one turn. [ms] */
const APART = 2500;
const COARSEST = 0.35;

export class Pace {
  private last = 0;
  private fine = 1;
  private turning = false;
  private timer: ReturnType<typeof setTimeout> | undefined;

  /** `onRest` is called when full fineness may come back. */
  constructor(private readonly onRest: () => void) {}

  /** Part of the full fineness to draw the picture of moment `now` with. [ms] */
  next(now: number): number {
    const gap = now - this.last;
    this.last = now;
    if (gap < APART && gap > SLOW && this.turning) this.fine = Math.max(COARSEST, this.fine * 0.7);
    clearTimeout(this.timer);
    this.turning = true;
    this.timer = setTimeout(() => this.rest(), Math.max(RESTED, Math.min(2 * gap, APART)));
    return this.fine;
  }

  stop(): void {
    clearTimeout(this.timer);
  }

  private rest(): void {
    this.turning = false;
    if (this.fine === 1) return;
    this.fine = 1;
    this.onRest();
  }
}
