/** How much of the house a machine can draw in time: learned from what it drew before. */

export type LayerName = "bodies" | "edges" | "hidden" | "lines" | "ghosts" | "dots";

/** What one piece of drawing may take, so that the machine can do other things between pieces. [ms] */
export const PIECE = 40;
/** What a picture may take while the house moves. [ms] */
export const MOVING = 66;
const LEAST = 2000;
/** In what order layers come into a picture that must be quick; the first two are always in it. */
const ORDER: readonly LayerName[] = ["bodies", "lines", "ghosts", "edges", "dots", "hidden"];

const NEEDED = 2;
/** How long a picture stays without a layer that was too much for it. [ms] */
const REPENT = 4000;

export class Pace {
  /** What one unit of a layer took when it was drawn finely. [ms] */
  private readonly rates = new Map<LayerName, number>();
  /** How many layers a moving picture has. */
  private level = ORDER.length;
  /** When so many layers were too much. [ms] */
  private readonly tooMuch = new Map<number, number>();

  /** Learn that so many units of a layer were drawn in `took`. [ms] */
  learn(layer: LayerName, units: number, took: number): void {
    if (units === 0) return;
    const old = this.rates.get(layer);
    const rate = Math.max(took, 0) / units;
    this.rates.set(layer, old === undefined ? rate : 0.5 * (old + rate));
  }

  /** What layers take when they are drawn finely; null while one was never drawn. [ms] */
  cost(layers: ReadonlyMap<LayerName, number>): number | null {
    let sum = 0;
    for (const [layer, units] of layers) {
      const rate = this.rates.get(layer);
      if (rate === undefined) return null;
      sum += rate * units;
    }
    return sum;
  }

  /** How many units of a layer make a piece. */
  piece(layer: LayerName): number {
    const rate = this.rates.get(layer);
    if (rate === undefined) return 8 * LEAST;
    return rate === 0 ? Number.MAX_SAFE_INTEGER : Math.max(LEAST, Math.floor(PIECE / rate));
  }

  /** Which layers a picture of the moving house has: all where there is time, else the first ones. */
  moving(layers: ReadonlyMap<LayerName, number>): ReadonlySet<LayerName> {
    const there = ORDER.filter((layer) => layers.has(layer));
    this.level = Math.min(this.level, there.length);
    return new Set(there.slice(0, Math.max(NEEDED, this.level)));
  }

  /** Learn at moment `now` that a picture of the moving house took so long. [ms] */
  moved(took: number, now: number): void {
    if (took > MOVING) {
      this.tooMuch.set(this.level, now);
      this.level = Math.max(NEEDED, this.level - 1);
    } else if (took < MOVING / 2 && this.level < ORDER.length) {
      const since = now - (this.tooMuch.get(this.level + 1) ?? Number.NEGATIVE_INFINITY);
      if (since > REPENT) this.level += 1;
    }
  }
}
