/** The window on the model: draws the scene when something changed, and never otherwise. */

import {
  DoubleSide,
  Mesh as Drawn,
  FrontSide,
  type IUniform,
  LineSegments,
  OrthographicCamera,
  type ShaderMaterial,
  Vector2,
  Vector4,
  WebGLRenderer,
} from "three";
import { CORNER, depthOf, type Eye, fitted, moved, nearer, turned } from "./camera";
import { Chosen } from "./chosen";
import { Glide } from "./glide";
import { aim } from "./lens";
import { buildDots, buildRibbons, Dashes, type Painted, paintRibbons, type Ribbons } from "./lines";
import * as ink from "./materials";
import { buildMesh, type Mesh, pointAt } from "./mesh";
import { cutPlane, pickAt } from "./pick";
import { type Layer, Picture, type Told } from "./picture";
import { jointAways, type Segments, type Spots, segmentsOf, spotsOf } from "./segments";
import {
  type Cut,
  type Pick,
  ROLES,
  type Role,
  type Scene,
  type Standing,
  type Vec3,
} from "./types";
import { add, type Box, middle, minus, scaled } from "./vector";

const FULL_TURN = 220;
const REACH = 22;
/** How wide a joint is marked that has no style yet. [px] */
const PLAIN = 2;

export interface ViewEvents {
  readonly onPick: (pick: Pick | null) => void;
  /** Whether something to pick lies under the pointer. */
  readonly onOver: (over: boolean) => void;
  readonly onDrawn: (told: Told) => void;
}

/** A renderer for a canvas; throws where the browser has no WebGL. */
export function rendererFor(canvas: HTMLCanvasElement | OffscreenCanvas): WebGLRenderer {
  return new WebGLRenderer({ canvas, antialias: true, alpha: false });
}

export class View {
  private readonly camera = new OrthographicCamera();
  private readonly mesh: Mesh;
  private readonly segments: Segments;
  private readonly spots: Spots;
  private readonly ribbons: Ribbons;
  private readonly dashes = new Dashes();
  private readonly glide = new Glide((eye) => this.look(eye));
  private readonly picture: Picture;
  private readonly chosen: Chosen;
  private readonly jointIndex: ReadonlyMap<string, number>;
  private readonly jointIds: readonly string[];
  private readonly nodeIds: readonly string[];
  private readonly shared: Record<string, IUniform>;
  private readonly ghosts: Layer;
  private readonly dots: Layer;
  private painted: Painted = { styles: [], of: new Uint8Array() };
  private eye: Eye;
  private cut: Cut | null = null;
  private cutting = false;
  private apart = 0;
  private width = 1;
  private height = 1;
  private begun = false;
  private standing: Record<Role, Standing> = {
    wall: "solid", roof: "solid", floor: "solid", rim: "solid", partition: "solid", timber: "solid",
    bearing: "solid",
  }; // biome-ignore format: one row a role
  private selected: Pick | null = null;

  constructor(
    renderer: WebGLRenderer,
    private readonly scene: Scene,
    private readonly events: ViewEvents,
    private readonly still: boolean,
  ) {
    this.mesh = buildMesh(scene);
    const aways = jointAways(scene.joints, this.mesh);
    this.segments = segmentsOf(scene.joints, aways);
    this.spots = spotsOf(scene.nodes, aways);
    this.jointIds = scene.joints.map((joint) => joint.id);
    this.jointIndex = new Map(this.jointIds.map((id, k) => [id, k]));
    this.nodeIds = scene.nodes.map((node) => node.id);
    this.ribbons = buildRibbons(this.segments);
    this.shared = {
      apart: { value: 0 },
      cut: { value: new Vector4(0, 0, 0, 1) },
      standing: { value: ROLES.map(() => 0) },
      window: { value: new Vector2(1, 1) },
      pixel: { value: 1 },
      dashes: { value: this.dashes.texture },
      rows: { value: this.dashes.rows },
      lift: { value: 0 },
    };
    this.picture = new Picture(renderer, this.camera, (ratio) => this.aim(ratio), events.onDrawn);
    this.chosen = new Chosen(this.picture.over, this.shared, this.dashes);
    this.chosen.warm(this.picture.warm);
    [this.ghosts, this.dots] = this.build();
    this.eye = fitted(this.mesh.box, CORNER, 1.5);
  }

  /** Tell the size of the window, in the page's pixels, and how many of the screen's each is. */
  size(width: number, height: number, ratio: number): void {
    if (width === 0 || height === 0) return;
    [this.width, this.height] = [width, height];
    this.picture.resize(width, height, Math.min(ratio, 2));
    if (!this.begun) this.eye = fitted(this.whole(), this.eye, this.shape());
    this.begun = true;
  }

  /** Set how joints are drawn: one row of a few styles for each, in the order of the scene. */
  paint(painted: Painted): void {
    this.painted = painted;
    paintRibbons(this.ribbons, painted, this.dashes);
    this.mark();
    this.picture.changed();
  }

  setCut(cut: Cut | null): void {
    this.cut = cut;
    const { normal, limit } = cutPlane(cut, this.mesh);
    if (this.cutting !== (cut !== null)) {
      this.cutting = cut !== null;
      for (const { thing, name } of this.picture.layers) {
        this.fitToCut(thing.material as ShaderMaterial, name === "bodies");
      }
      for (const material of this.chosen.materials) this.fitToCut(material, false);
    }
    (this.shared.cut as IUniform<Vector4>).value.set(...normal, limit);
    this.picture.moving();
  }

  /** Draw the house apart by up to `metres`. */
  setApart(metres: number): void {
    this.apart = metres;
    (this.shared.apart as IUniform<number>).value = metres;
    this.picture.moving();
  }

  setStanding(standing: Record<Role, Standing>): void {
    this.standing = standing;
    this.ghosts.shown = Object.values(standing).includes("ghost");
    const codes = { solid: 0, ghost: 1, hidden: 2 };
    (this.shared.standing as IUniform).value = ROLES.map((role) => codes[standing[role]]);
    this.picture.changed();
  }

  setNodes(shown: boolean): void {
    this.dots.shown = shown;
    this.picture.changed();
  }

  /** Mark a joint or node as chosen; null for none. */
  select(pick: Pick | null): void {
    this.selected = pick;
    this.mark();
    this.picture.show();
  }

  /** Bring what is chosen into the middle of the window. */
  focus(pick: Pick): void {
    const at = this.placeOf(pick);
    if (at !== null) this.lookFrom({ ...this.eye, center: at });
  }

  /** Look from a bearing and a height above the horizon. [deg] */
  turnTo(bearing: number, tilt: number): void {
    this.lookFrom(fitted(this.whole(), { bearing, tilt }, this.shape()));
  }

  fit(): void {
    this.turnTo(this.eye.bearing, this.eye.tilt);
  }

  turn(dx: number, dy: number): void {
    this.look(turned(this.eye, (dx * FULL_TURN) / 700, (dy * FULL_TURN) / 700));
  }

  move(dx: number, dy: number): void {
    this.look(moved(this.eye, dx, dy, this.height));
  }

  near(factor: number, x: number, y: number): void {
    const [dx, dy] = [x - this.width / 2, y - this.height / 2];
    this.look(nearer(this.eye, factor, dx, dy, this.height));
  }

  tap(x: number, y: number): void {
    this.events.onPick(this.pick(x, y, REACH));
  }

  hover(x: number, y: number): void {
    this.events.onOver(this.pick(x, y, 6) !== null);
  }

  close(): void {
    this.glide.stop();
    this.picture.close();
    for (const { thing } of this.picture.layers) {
      thing.geometry.dispose();
      (thing.material as ShaderMaterial).dispose();
    }
    this.chosen.close();
    this.dashes.texture.dispose();
  }

  /** A cut house shows its insides; a whole one is drawn without looking for them. */
  private fitToCut(material: ShaderMaterial, solid: boolean): void {
    material.defines = this.cutting ? { CUTTING: "" } : {};
    if (solid) material.side = this.cutting ? DoubleSide : FrontSide;
    material.needsUpdate = true;
  }

  private build(): [Layer, Layer] {
    const [body, edge] = [ink.bodyGeometry(this.mesh), ink.edgeGeometry(this.mesh)];
    const corners = this.mesh.role.length;
    const bodies = new Drawn(body, ink.bodyMaterial(this.shared, 0));
    this.picture.add({ name: "bodies", thing: bodies, units: corners, parted: true });
    const edges = new LineSegments(edge, ink.edgeMaterial(this.shared));
    const ends = this.mesh.edgeRole.length;
    this.picture.add({ name: "edges", thing: edges, units: ends, parted: true });
    for (const hidden of [true, false]) {
      const material = ink.lineMaterial(this.shared, { hidden });
      for (const block of this.ribbons.blocks) {
        const thing = new Drawn(block, material);
        const units = block.instanceCount;
        this.picture.add({ name: hidden ? "hidden" : "lines", thing, units, parted: false });
      }
    }
    const ghost = new Drawn(body, ink.bodyMaterial(this.shared, 1));
    const dot = new Drawn(buildDots(this.spots), ink.dotMaterial(this.shared));
    const ghosts = this.picture.add({ name: "ghosts", thing: ghost, units: corners, parted: true });
    const n = this.nodeIds.length;
    const dots = this.picture.add({ name: "dots", thing: dot, units: n, parted: false });
    this.picture.layers.forEach(({ thing }, order) => {
      thing.renderOrder = order;
    });
    ghosts.shown = false;
    return [ghosts, dots];
  }

  private mark(): void {
    const index = this.selected === null ? -1 : this.placeIn(this.selected);
    if (this.selected === null || index < 0) this.chosen.clear();
    else if (this.selected.what === "node") {
      const part = (list: Float32Array): Float32Array => list.slice(3 * index, 3 * index + 3);
      this.chosen.markNode({ at: part(this.spots.at), away: part(this.spots.away) });
    } else {
      const joint = this.scene.joints[index];
      const own = joint === undefined ? [] : [joint];
      const width = this.painted.styles[this.painted.of[index] ?? -1]?.width ?? PLAIN;
      this.chosen.markJoint(segmentsOf(own, jointAways(own, this.mesh)), width);
    }
  }

  private placeIn(pick: Pick): number {
    return pick.what === "node"
      ? this.nodeIds.indexOf(pick.id)
      : (this.jointIndex.get(pick.id) ?? -1);
  }

  private placeOf(pick: Pick): Vec3 | null {
    const index = this.placeIn(pick);
    if (index < 0) return null;
    if (pick.what === "node")
      return add(
        pointAt(this.spots.at, index),
        scaled(pointAt(this.spots.away, index), this.apart),
      );
    const joint = this.scene.joints[index];
    if (joint === undefined) return null;
    const away = pointAt(jointAways([joint], this.mesh), 0);
    return add(middle(joint.lines.flat()), scaled(away, this.apart));
  }

  private pick(x: number, y: number, radius: number): Pick | null {
    const { styles, of } = this.painted;
    const world = {
      joints: this.jointIds,
      nodes: this.nodeIds,
      mesh: this.mesh,
      segments: this.segments,
      spots: this.spots,
      eye: this.eye,
      apart: this.apart,
      cut: this.cut,
      standing: this.standing,
      shown: (k: number) => styles[of[k] ?? -1]?.shown ?? true,
      nodesShown: this.dots.shown,
    };
    return pickAt(world, x, y, this.width, this.height, radius);
  }

  /** The box of the house as it is drawn, apart or not. */
  private whole(): Box {
    const by: Vec3 = [1.4 * this.apart, 1.4 * this.apart, 1.2 * this.apart];
    return { low: minus(this.mesh.box.low, by), high: add(this.mesh.box.high, by) };
  }

  private shape(): number {
    return this.width / Math.max(this.height, 1);
  }

  private look(eye: Eye): void {
    this.eye = eye;
    this.picture.moving();
  }

  private lookFrom(goal: Eye): void {
    this.glide.go(this.eye, goal, this.still);
  }

  /** Aim at the house for a picture with `ratio` dots to a pixel of the page. */
  private aim(ratio: number): void {
    const depth = depthOf(this.mesh.box, this.apart);
    aim(this.camera, this.eye, this.shape(), depth);
    (this.shared.window as IUniform<Vector2>).value.set(this.width * ratio, this.height * ratio);
    (this.shared.pixel as IUniform<number>).value = ratio;
    (this.shared.lift as IUniform<number>).value = 0.05 / depth;
  }
}
