/** The window on the model: draws the scene when something changed, and never otherwise. */

import {
  Color,
  DoubleSide,
  Mesh as Drawn,
  FrontSide,
  InstancedBufferGeometry,
  type IUniform,
  LineSegments,
  type Object3D,
  OrthographicCamera,
  type ShaderMaterial,
  Scene as Stage,
  Vector2,
  Vector4,
  WebGLRenderer,
} from "three";
import { CORNER, depthOf, type Eye, fitted, moved, nearer, turned } from "./camera";
import { Chosen } from "./chosen";
import { Glide } from "./glide";
import { listen } from "./hands";
import { aim } from "./lens";
import { buildDots, buildRibbons, Dashes, jointAway, paintRibbons, type Ribbons } from "./lines";
import * as ink from "./materials";
import { buildMesh, type Mesh } from "./mesh";
import { Pace } from "./pace";
import { cutPlane, pickAt } from "./pick";
import {
  type Cut,
  type LineStyle,
  type Pick,
  ROLES,
  type Role,
  type Scene,
  type Standing,
  type Vec3,
} from "./types";
import { add, type Box, middle, minus, scaled } from "./vector";

const PLAIN: LineStyle = { color: "#000000", width: 2, dash: [], shown: true };
const FULL_TURN = 220;
const REACH = 22;

export interface ViewEvents {
  readonly onPick: (pick: Pick | null) => void;
  readonly onEye?: (eye: Eye) => void;
}

export class View {
  /** How long the last pictures took to draw, newest last. [ms] */
  readonly frames: number[] = [];
  private readonly renderer: WebGLRenderer;
  private readonly stage = new Stage();
  private readonly camera = new OrthographicCamera();
  private readonly mesh: Mesh;
  private readonly ribbons: Ribbons;
  private readonly dots: ReturnType<typeof buildDots>;
  private readonly chosen: Chosen;
  private readonly dashes = new Dashes();
  private readonly glide = new Glide((eye) => this.look(eye));
  private readonly shared: Record<string, IUniform>;
  private readonly jointAways: readonly Vec3[];
  private readonly jointIndex: ReadonlyMap<string, number>;
  private readonly stop: () => void;
  private readonly watcher: ResizeObserver;
  private ghost: Object3D | null = null;
  private styles: readonly LineStyle[] = [];
  private eye: Eye;
  private cut: Cut | null = null;
  private cutting = false;
  private apart = 0;
  private nodesShown = true;
  private standing: Record<Role, Standing> = {
    wall: "solid", roof: "solid", floor: "solid", rim: "solid", partition: "solid", timber: "solid",
    bearing: "solid",
  }; // biome-ignore format: one row a role
  private selected: Pick | null = null;
  private asked = 0;
  private fine = 1;
  private readonly pace = new Pace(() => this.ask());

  /** Throws where the browser has no WebGL; the page then shows the static picture. */
  constructor(
    private readonly canvas: HTMLCanvasElement,
    private readonly scene: Scene,
    private readonly events: ViewEvents,
    private readonly still: boolean,
  ) {
    this.renderer = new WebGLRenderer({ canvas, antialias: true, alpha: false });
    this.renderer.setClearColor(new Color(1, 1, 1), 1);
    this.mesh = buildMesh(scene);
    this.jointAways = scene.joints.map((joint) => jointAway(joint, this.mesh));
    this.jointIndex = new Map(scene.joints.map((joint, k) => [joint.id, k]));
    this.ribbons = buildRibbons(scene.joints, this.mesh);
    this.dots = buildDots(scene, this.mesh);
    this.shared = {
      apart: { value: 0 },
      cut: { value: new Vector4(0, 0, 0, 1) },
      standing: { value: ROLES.map(() => 0) },
      window: { value: new Vector2(1, 1) },
      pixel: { value: 1 },
      dashes: { value: this.dashes.texture },
      rows: { value: this.dashes.rows },
    };
    this.chosen = new Chosen(this.stage, this.mesh, this.shared, this.dashes);
    this.build();
    this.eye = fitted(this.mesh.box, CORNER, 1.5);
    this.stop = listen(canvas, this.hands());
    this.watcher = new ResizeObserver(() => this.resize());
    this.watcher.observe(canvas);
    this.resize();
    this.fit();
  }

  /** Set how every joint is drawn, in the order of the scene. */
  paint(styles: readonly LineStyle[]): void {
    this.styles = styles;
    paintRibbons(this.ribbons, (k) => styles[k] ?? PLAIN, this.dashes);
    this.markChosen();
    this.ask();
  }

  setCut(cut: Cut | null): void {
    this.cut = cut;
    const { normal, limit } = cutPlane(cut, this.mesh);
    if (this.cutting !== (cut !== null)) {
      this.cutting = cut !== null;
      this.stage.traverse((thing) => this.fitToCut(thing));
    }
    (this.shared.cut as IUniform<Vector4>).value.set(...normal, limit);
    this.ask();
  }

  /** A cut house shows its insides; a whole one is drawn without looking for them. */
  private fitToCut(thing: Object3D): void {
    if (!(thing instanceof Drawn || thing instanceof LineSegments)) return;
    const material = thing.material as ShaderMaterial;
    if ("CUTTING" in material.defines === this.cutting) return;
    material.defines = this.cutting ? { CUTTING: "" } : {};
    if (thing.name === "solid") material.side = this.cutting ? DoubleSide : FrontSide;
    material.needsUpdate = true;
  }

  /** Draw the house apart by up to `metres`. */
  setApart(metres: number): void {
    this.apart = metres;
    if (this.shared.apart !== undefined) this.shared.apart.value = metres;
    this.ask();
  }

  setStanding(standing: Record<Role, Standing>): void {
    this.standing = standing;
    if (this.ghost !== null) this.ghost.visible = Object.values(standing).includes("ghost");
    const codes = { solid: 0, ghost: 1, hidden: 2 };
    if (this.shared.standing !== undefined) {
      this.shared.standing.value = ROLES.map((role) => codes[standing[role]]);
    }
    this.ask();
  }

  setNodes(shown: boolean): void {
    this.nodesShown = shown;
    this.markChosen();
    this.ask();
  }

  /** Mark a joint or node as chosen; null for none. */
  select(pick: Pick | null): void {
    this.selected = pick;
    this.markChosen();
    this.ask();
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
    const { bearing, tilt } = this.eye;
    this.lookFrom(fitted(this.whole(), { bearing, tilt }, this.shape()));
  }

  /** The picture as it stands, as a PNG. */
  picture(): string {
    this.draw();
    return this.canvas.toDataURL("image/png");
  }

  /** Turn once around in `count` pictures and say how long each took. [ms] */
  measure(count: number): number[] {
    const times: number[] = [];
    const context = this.renderer.getContext();
    const probe = new Uint8Array(4);
    for (let k = 0; k < count; k += 1) {
      this.eye = turned(this.eye, 360 / count, 0);
      const start = performance.now();
      this.draw();
      context.readPixels(0, 0, 1, 1, context.RGBA, context.UNSIGNED_BYTE, probe);
      times.push(performance.now() - start);
    }
    return times;
  }

  close(): void {
    cancelAnimationFrame(this.asked);
    this.glide.stop();
    this.stop();
    this.watcher.disconnect();
    this.pace.stop();
    this.stage.traverse((thing) => {
      if (thing instanceof Drawn || thing instanceof LineSegments) {
        thing.geometry.dispose();
        (thing.material as ShaderMaterial).dispose();
      }
    });
    this.chosen.close();
    this.dashes.texture.dispose();
    this.renderer.dispose();
  }

  private build(): void {
    const body = ink.bodyGeometry(this.mesh);
    const solid = new Drawn(body, ink.bodyMaterial(this.shared, 0));
    solid.name = "solid";
    this.place(solid, 0);
    this.ghost = new Drawn(body, ink.bodyMaterial(this.shared, 1));
    this.ghost.visible = false;
    this.place(this.ghost, 4);
    this.place(new LineSegments(ink.edgeGeometry(this.mesh), ink.edgeMaterial(this.shared)), 1);
    this.place(
      new Drawn(this.ribbons.geometry, ink.lineMaterial(this.shared, { hidden: true })),
      2,
    );
    this.place(
      new Drawn(this.ribbons.geometry, ink.lineMaterial(this.shared, { hidden: false })),
      3,
    );
    this.place(new Drawn(this.dots.geometry, ink.dotMaterial(this.shared)), 5);
  }

  private place(thing: Object3D, order: number): void {
    thing.frustumCulled = false;
    thing.renderOrder = order;
    this.stage.add(thing);
  }

  private markChosen(): void {
    const big = this.dots.geometry.getAttribute("big");
    this.scene.nodes.forEach((node, k) => {
      const mine = this.selected?.what === "node" && this.selected.id === node.id;
      big.setX(k, mine ? 1 : this.nodesShown ? 0 : -1);
    });
    big.needsUpdate = true;
    const index =
      this.selected?.what === "joint" ? this.jointIndex.get(this.selected.id) : undefined;
    const joint = index === undefined ? null : (this.scene.joints[index] ?? null);
    this.chosen.mark(joint, this.styles[index ?? -1] ?? PLAIN, (thing) => {
      this.fitToCut(thing);
      this.place(thing, 6);
    });
  }

  private placeOf(pick: Pick): Vec3 | null {
    if (pick.what === "node")
      return this.scene.nodes.find((node) => node.id === pick.id)?.at ?? null;
    const index = this.jointIndex.get(pick.id);
    const joint = index === undefined ? undefined : this.scene.joints[index];
    if (joint === undefined || index === undefined) return null;
    return add(middle(joint.lines.flat()), scaled(this.jointAways[index] ?? [0, 0, 0], this.apart));
  }

  private hands(): Parameters<typeof listen>[1] {
    const from = (x: number, y: number): [number, number] => [
      x - this.canvas.clientWidth / 2,
      y - this.canvas.clientHeight / 2,
    ];
    return {
      turn: (dx, dy) => this.look(turned(this.eye, (dx * FULL_TURN) / 700, (dy * FULL_TURN) / 700)),
      move: (dx, dy) => this.look(moved(this.eye, dx, dy, this.canvas.clientHeight)),
      near: (factor, x, y) =>
        this.look(nearer(this.eye, factor, ...from(x, y), this.canvas.clientHeight)),
      tap: (x, y) => this.events.onPick(this.pick(x, y, REACH)),
      hover: (x, y) => {
        this.canvas.style.cursor = this.pick(x, y, 6) === null ? "grab" : "pointer";
      },
      fit: () => this.fit(),
    };
  }

  private pick(x: number, y: number, radius: number): Pick | null {
    const world = {
      scene: this.scene,
      mesh: this.mesh,
      jointAways: this.jointAways,
      nodeAways: this.dots.aways,
      eye: this.eye,
      apart: this.apart,
      cut: this.cut,
      standing: this.standing,
      shown: (k: number) => this.styles[k]?.shown ?? true,
      nodesShown: this.nodesShown,
    };
    return pickAt(world, x, y, this.canvas.clientWidth, this.canvas.clientHeight, radius);
  }

  /** The box of the house as it is drawn, apart or not. */
  private whole(): Box {
    const by: Vec3 = [1.4 * this.apart, 1.4 * this.apart, 1.2 * this.apart];
    return { low: minus(this.mesh.box.low, by), high: add(this.mesh.box.high, by) };
  }

  private shape(): number {
    return this.canvas.clientWidth / Math.max(this.canvas.clientHeight, 1);
  }

  private look(eye: Eye): void {
    this.eye = eye;
    this.ask();
  }

  private lookFrom(goal: Eye): void {
    this.glide.go(this.eye, goal, this.still || this.frames.length === 0);
  }

  private setFineness(fine: number): void {
    if (fine === this.fine) return;
    this.fine = fine;
    this.size();
  }

  private resize(): void {
    this.size();
    this.ask();
  }

  private size(): void {
    const [width, height] = [this.canvas.clientWidth, this.canvas.clientHeight];
    if (width === 0 || height === 0) return;
    const ratio = Math.min(window.devicePixelRatio, 2) * this.fine;
    this.renderer.setPixelRatio(ratio);
    this.renderer.setSize(width, height, false);
    (this.shared.window as IUniform<Vector2>).value.set(width * ratio, height * ratio);
    if (this.shared.pixel !== undefined) this.shared.pixel.value = ratio;
  }

  private ask(): void {
    if (this.asked !== 0) return;
    this.asked = requestAnimationFrame((now) => {
      this.asked = 0;
      this.setFineness(this.pace.next(now));
      const start = performance.now();
      this.draw();
      this.frames.push(performance.now() - start);
      if (this.frames.length > 120) this.frames.shift();
      this.events.onEye?.(this.eye);
    });
  }

  private draw(): void {
    const depth = depthOf(this.mesh.box, this.apart);
    aim(this.camera, this.eye, this.shape(), depth);
    this.lift(0.05 / depth);
    this.renderer.render(this.stage, this.camera);
  }

  /** Draw lines a hand's breadth nearer than they lie, so that the skin they lie on does not hide them. */
  private lift(by: number): void {
    this.stage.traverse((thing) => {
      if (thing instanceof Drawn && thing.geometry instanceof InstancedBufferGeometry) {
        const lift = (thing.material as ShaderMaterial).uniforms.lift;
        if (lift !== undefined) lift.value = by;
      }
    });
  }
}
