/** The mark on what is chosen: a joint or node is drawn again, broad and bright, over everything. */

import { Mesh as Drawn, type IUniform, type ShaderMaterial, type Scene as Stage } from "three";
import { buildDots, buildRibbons, type Dashes, paintRibbons } from "./lines";
import * as ink from "./materials";
import type { Segments, Spots } from "./segments";

/** The two strokes of the mark: its color, and how much wider than the line it is. [px] */
const STROKES = [
  ["#000000", 9],
  ["#f0e442", 5],
] as const;

export class Chosen {
  /** Kept for the life of the window: making a material anew would stop the next picture. */
  private readonly strokes: readonly ShaderMaterial[];
  private readonly dot: ShaderMaterial;

  constructor(
    private readonly stage: Stage,
    shared: Record<string, IUniform>,
    private readonly dashes: Dashes,
  ) {
    this.strokes = STROKES.map(([over, widen]) =>
      ink.lineMaterial(shared, { hidden: false, over, widen }),
    );
    this.dot = ink.dotMaterial(shared);
    this.dot.depthTest = false;
  }

  /** Every material of the mark, so that a cut house cuts it too. */
  get materials(): readonly ShaderMaterial[] {
    return [...this.strokes, this.dot];
  }

  /** Things that nobody sees, which make the shaders of the mark when they are drawn. */
  warm(stage: Stage): void {
    const none = { from: new Float32Array(3), to: new Float32Array(3), away: new Float32Array(3) };
    const line = buildRibbons({ ...none, owner: new Uint32Array(1) });
    for (const material of this.strokes)
      for (const block of line.blocks) stage.add(new Drawn(block, material));
    const dot = buildDots({ at: new Float32Array(3), away: new Float32Array(3) });
    dot.getAttribute("big").setX(0, -1);
    stage.add(new Drawn(dot, this.dot));
    for (const thing of stage.children) thing.frustumCulled = false;
  }

  /** Mark a joint, drawn `width` wide, in place of what was marked before. [px] */
  markJoint(segments: Segments, width: number): void {
    this.clear();
    const ribbons = buildRibbons(segments);
    const style = { color: "#000000", width, dash: [], shown: true };
    paintRibbons(ribbons, { styles: [style], of: new Uint8Array(1) }, this.dashes);
    for (const material of this.strokes)
      for (const block of ribbons.blocks) this.place(new Drawn(block, material));
  }

  markNode(spot: Spots): void {
    this.clear();
    const geometry = buildDots(spot);
    geometry.getAttribute("big").setX(0, 1);
    this.place(new Drawn(geometry, this.dot));
  }

  clear(): void {
    for (const old of [...this.stage.children]) {
      this.stage.remove(old);
      (old as Drawn).geometry.dispose();
    }
  }

  close(): void {
    this.clear();
    for (const material of this.materials) material.dispose();
  }

  private place(thing: Drawn): void {
    thing.frustumCulled = false;
    thing.renderOrder = this.stage.children.length;
    this.stage.add(thing);
  }
}
