/** Going from one eye to another: gliding, or at once where the reader asked for less motion. */

import { between, type Eye } from "./camera";

/** How long a glide takes. [ms] */
const TIME = 240;

export class Glide {
  private asked = 0;

  constructor(private readonly look: (eye: Eye) => void) {}

  /** Go to an eye; a glide under way is given up. */
  go(from: Eye, to: Eye, still: boolean): void {
    this.stop();
    if (still) {
      this.look(to);
      return;
    }
    const begun = performance.now();
    const step = (): void => {
      const part = Math.min(1, (performance.now() - begun) / TIME);
      this.look(between(from, to, part));
      if (part < 1) this.asked = requestAnimationFrame(step);
    };
    step();
  }

  stop(): void {
    cancelAnimationFrame(this.asked);
  }
}
