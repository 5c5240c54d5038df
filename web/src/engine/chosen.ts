/** The mark on what is chosen: a joint is drawn again, broad and bright, over everything. */

import { Mesh as Drawn, type IUniform, type ShaderMaterial, type Scene as Stage } from "three";
import { buildRibbons, type Dashes, paintRibbons } from "./lines";
import * as ink from "./materials";
import type { Mesh } from "./mesh";
import type { JointLine, LineStyle } from "./types";

/** The two strokes of the mark: its color, and how much wider than the line it is. [px] */
const STROKES = [
  ["#000000", 9],
  ["#f0e442", 5],
] as const;

export class Chosen {
  /** Kept for the life of the window: making a material anew would stop the next picture. */
  private readonly strokes: readonly ShaderMaterial[];
  private readonly drawn: Drawn[] = [];

  constructor(
    private readonly stage: Stage,
    private readonly mesh: Mesh,
    shared: Record<string, IUniform>,
    private readonly dashes: Dashes,
  ) {
    this.strokes = STROKES.map(([over, widen]) =>
      ink.lineMaterial(shared, { hidden: false, over, widen }),
    );
  }

  /** Mark a joint in place of the one marked before; null for none. */
  mark(joint: JointLine | null, style: LineStyle, place: (thing: Drawn) => void): void {
    for (const old of this.drawn.splice(0)) {
      this.stage.remove(old);
      old.geometry.dispose();
    }
    if (joint === null) return;
    const ribbons = buildRibbons([joint], this.mesh);
    paintRibbons(ribbons, () => ({ ...style, shown: true, dash: [] }), this.dashes);
    for (const material of this.strokes) {
      const thing = new Drawn(ribbons.geometry, material);
      place(thing);
      this.drawn.push(thing);
    }
  }

  close(): void {
    for (const material of this.strokes) material.dispose();
  }
}
