/** The mark on what is chosen: a joint is drawn again, broad and bright, over everything. */

import { Mesh as Drawn, type IUniform, type Scene as Stage } from "three";
import { buildRibbons, type Dashes, paintRibbons, type Ribbons } from "./lines";
import * as ink from "./materials";
import type { Mesh } from "./mesh";
import type { JointLine, LineStyle } from "./types";

/** The two strokes of the mark: its color, and how much wider than the line it is. [px] */
const STROKES = [
  ["#000000", 9],
  ["#f0e442", 5],
] as const;

export class Chosen {
  private readonly drawn: { readonly thing: Drawn; readonly ribbons: Ribbons }[] = [];

  constructor(
    private readonly stage: Stage,
    private readonly mesh: Mesh,
    private readonly shared: Record<string, IUniform>,
    private readonly dashes: Dashes,
  ) {}

  /** Mark a joint in place of the one marked before; null for none. */
  mark(joint: JointLine | null, style: LineStyle, place: (thing: Drawn) => void): void {
    this.clear();
    if (joint === null) return;
    for (const [over, widen] of STROKES) {
      const ribbons = buildRibbons([joint], this.mesh);
      paintRibbons(ribbons, () => ({ ...style, shown: true, dash: [] }), this.dashes);
      const thing = new Drawn(
        ribbons.geometry,
        ink.lineMaterial(this.shared, { hidden: false, over, widen }),
      );
      place(thing);
      this.drawn.push({ thing, ribbons });
    }
  }

  private clear(): void {
    for (const { thing, ribbons } of this.drawn.splice(0)) {
      this.stage.remove(thing);
      ribbons.geometry.dispose();
      if (!Array.isArray(thing.material)) thing.material.dispose();
    }
  }
}
