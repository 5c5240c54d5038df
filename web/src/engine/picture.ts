/** The picture of the house: fine at rest, made in pieces and kept; quick while it moves. */

import {
  Color,
  Mesh as Drawn,
  OrthographicCamera as Flat,
  LinearFilter,
  type LineSegments,
  type OrthographicCamera,
  PlaneGeometry,
  ShaderMaterial,
  Scene as Stage,
  type WebGLRenderer,
  WebGLRenderTarget,
} from "three";
import { type LayerName, Pace, PIECE } from "./pace";

export interface Layer {
  readonly name: LayerName;
  readonly thing: Drawn | LineSegments;
  /** Corners or instances. */
  readonly units: number;
  /** Whether a part of it can be drawn, from corner to corner. */
  readonly parted: boolean;
  shown: boolean;
}

/** Told after each picture: the page's own work in it, and what was sent to be drawn. */
export interface Told {
  readonly ms: number;
  readonly calls: number;
  readonly triangles: number;
  readonly fine: boolean;
}

const PAPER = new Color(1, 1, 1);
/** Fine pictures are drawn this much finer than the window and then made smaller, for smooth lines. */
const FINE = 2;
const MOST_PIXELS = 10e6;
const QUICK = 0.5;
/** How long nothing must move until the fine picture is begun. [ms] */
const REST = 160;

/** How long the page may take to answer a hand before the house is drawn anew. [ms] */
const ANSWER = 130;

const COPY_VERTEX = `
varying vec2 spot;
void main() { spot = position.xy * 0.5 + 0.5; gl_Position = vec4(position.xy, 0.0, 1.0); }`;
const COPY_FRAGMENT = `
uniform sampler2D picture;
varying vec2 spot;
void main() { gl_FragColor = vec4(texture2D(picture, spot).rgb, 1.0); }`;

export class Picture {
  readonly stage = new Stage();
  /** Drawn over the picture each time it is shown: what is chosen. */
  readonly over = new Stage();
  /** Drawn once, unseen, with the first picture: making a shader anew would hold up a later one. */
  readonly warm = new Stage();
  readonly pace = new Pace();
  layers: Layer[] = [];
  private readonly store = target();
  private readonly quick = target();
  private readonly copy: ShaderMaterial;
  private readonly sheet = new Stage();
  private readonly flat = new Flat();
  private size = { width: 1, height: 1, ratio: 1 };
  private run = 0;
  private asked = 0;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private laying: ReturnType<typeof setTimeout> | undefined;
  private busy = false;
  private again = false;
  private ever = false;
  /** What it takes to hear that nothing was drawn. [ms] */
  private idle = 0;
  /** What stands in the window: the kept fine picture, or a quick one. */
  private from: WebGLRenderTarget | null = null;

  constructor(
    private readonly renderer: WebGLRenderer,
    private readonly camera: OrthographicCamera,
    private readonly aim: (ratio: number) => void,
    private readonly told: (told: Told) => void,
  ) {
    renderer.setClearColor(PAPER, 1);
    renderer.autoClear = false;
    renderer.info.autoReset = false;
    this.copy = new ShaderMaterial({
      vertexShader: COPY_VERTEX,
      fragmentShader: COPY_FRAGMENT,
      uniforms: { picture: { value: null } },
      depthTest: false,
      depthWrite: false,
    });
    const plane = new Drawn(new PlaneGeometry(2, 2), this.copy);
    plane.frustumCulled = false;
    this.sheet.add(plane);
  }

  add(layer: Omit<Layer, "shown">): Layer {
    layer.thing.frustumCulled = false;
    this.stage.add(layer.thing);
    const kept = { ...layer, shown: true };
    this.layers.push(kept);
    return kept;
  }

  resize(width: number, height: number, ratio: number): void {
    this.size = { width, height, ratio };
    this.renderer.setPixelRatio(ratio);
    this.renderer.setSize(width, height, false);
    const fine = this.fineness();
    this.store.setSize(Math.round(width * fine), Math.round(height * fine));
    this.quick.setSize(
      Math.max(1, Math.round(width * ratio * QUICK)),
      Math.max(1, Math.round(height * ratio * QUICK)),
    );
    this.changed();
  }

  /** The house moves: a quick picture now, a fine one once it rests. */
  moving(): void {
    this.run += 1;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.refine(), REST);
    if (this.ever) this.ask();
  }

  /** Something of the house is drawn otherwise: a fine picture anew; the old one stays until then. */
  changed(): void {
    this.run += 1;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.refine(), ANSWER);
  }

  /** Only what is drawn over the picture is another; on a weak machine the page answers first. */
  show(): void {
    if (!this.ever) return;
    clearTimeout(this.laying);
    this.laying = setTimeout(() => this.lays(), this.easy() ? 0 : ANSWER);
  }

  private lays(): void {
    if (this.asked === 0) this.asked = requestAnimationFrame(() => this.lay());
  }

  /** Whether the whole house is drawn within one picture of the page. */
  private easy(): boolean {
    const whole = this.pace.cost(this.units());
    return whole !== null && whole < PIECE / 2;
  }

  close(): void {
    this.run += 1;
    clearTimeout(this.timer);
    clearTimeout(this.laying);
    cancelAnimationFrame(this.asked);
    for (const one of [this.store, this.quick]) one.dispose();
    this.copy.dispose();
  }

  private fineness(): number {
    const { width, height, ratio } = this.size;
    const most = Math.sqrt(MOST_PIXELS / Math.max(width * height, 1));
    return Math.max(ratio * 0.75, Math.min(Math.max(FINE, ratio), most));
  }

  private units(): Map<LayerName, number> {
    const found = new Map<LayerName, number>();
    for (const { name, units, shown } of this.layers)
      if (shown) found.set(name, (found.get(name) ?? 0) + units);
    return found;
  }

  private ask(): void {
    if (this.asked === 0) this.asked = requestAnimationFrame(() => this.move());
  }

  /** A picture of the moving house; on a weak machine coarser, with less in it, one at a time. */
  private move(): void {
    this.asked = 0;
    if (this.busy) {
      this.again = true;
      return;
    }
    const begun = performance.now();
    const units = this.units();
    const easy = this.easy();
    const kept = easy ? new Set(units.keys()) : this.pace.moving(units);
    this.renderer.info.reset();
    if (easy) {
      this.aim(this.size.ratio);
      this.renderer.setRenderTarget(null);
      this.renderer.clear();
    } else {
      this.aim(this.size.ratio * QUICK);
      this.renderer.setRenderTarget(this.quick);
      this.renderer.clear();
    }
    for (const layer of this.layers) this.reveal(layer, layer.shown && kept.has(layer.name));
    this.renderer.render(this.stage, this.camera);
    this.from = easy ? null : this.quick;
    if (easy) this.drawOver();
    else this.copyOut(this.quick);
    this.tell(begun, false);
    this.busy = true;
    void this.done().then((took) => {
      this.busy = false;
      if (!easy) this.pace.moved(took - this.idle, performance.now());
      if (this.again) this.ask();
      this.again = false;
    });
  }

  /** The fine picture, a piece at a time; given up when anything changes meanwhile. */
  private async refine(): Promise<void> {
    this.run += 1;
    const run = this.run;
    if (!this.ever) this.idle = Math.min(await this.done(), await this.done());
    if (run !== this.run) return;
    const whole = this.pace.cost(this.units());
    const once = whole !== null && whole < PIECE;
    let first = true;
    for (const layer of this.layers) {
      if (!layer.shown) continue;
      for (let at = 0; at < layer.units; ) {
        const piece = layer.parted && !once ? this.pace.piece(layer.name) : layer.units;
        const units = Math.min(piece - (piece % 6), layer.units - at) || layer.units - at;
        this.piece(layer, at, units, first);
        first = false;
        at += units;
        if (once) continue;
        const took = await this.done();
        if (run !== this.run) return;
        this.pace.learn(layer.name, units, took - this.idle);
      }
      if (!this.ever && !once) this.keep();
    }
    if (this.warm.children.length > 0) this.warmUp();
    this.keep();
  }

  private warmUp(): void {
    this.renderer.setRenderTarget(null);
    this.renderer.render(this.warm, this.camera);
    for (const thing of [...this.warm.children]) {
      this.warm.remove(thing);
      (thing as Drawn).geometry.dispose();
    }
  }

  private keep(): void {
    this.ever = true;
    this.from = this.store;
    this.lays();
  }

  private piece(layer: Layer, at: number, units: number, first: boolean): void {
    this.aim(this.fineness());
    this.renderer.setRenderTarget(this.store);
    if (first) this.renderer.clear();
    for (const other of this.layers) this.reveal(other, other === layer);
    if (layer.parted) layer.thing.geometry.setDrawRange(at, units);
    this.renderer.render(this.stage, this.camera);
    if (layer.parted) layer.thing.geometry.setDrawRange(0, Number.POSITIVE_INFINITY);
  }

  private reveal(layer: Layer, shown: boolean): void {
    layer.thing.visible = shown;
  }

  /** Lay the kept picture into the window, and over it what is chosen. */
  private lay(): void {
    this.asked = 0;
    const begun = performance.now();
    this.renderer.info.reset();
    if (this.from === null) {
      this.move();
      return;
    }
    this.copyOut(this.from);
    this.tell(begun, this.from === this.store);
  }

  private copyOut(from: WebGLRenderTarget): void {
    this.renderer.setRenderTarget(null);
    this.renderer.clear();
    (this.copy.uniforms.picture as { value: unknown }).value = from.texture;
    this.renderer.render(this.sheet, this.flat);
    this.drawOver();
  }

  private drawOver(): void {
    if (this.over.children.length === 0) return;
    this.aim(this.size.ratio);
    this.renderer.render(this.over, this.camera);
  }

  private tell(begun: number, fine: boolean): void {
    const { calls, triangles } = this.renderer.info.render;
    this.told({ ms: performance.now() - begun, calls, triangles, fine });
  }

  /** Wait until everything sent so far is drawn; how long that took. [ms] */
  private done(): Promise<number> {
    const gl = this.renderer.getContext() as WebGL2RenderingContext;
    const sync = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
    gl.flush();
    const begun = performance.now();
    return new Promise((answer) => {
      const look = (): void => {
        const open = sync !== null && !gl.isContextLost() &&
          gl.getSyncParameter(sync, gl.SYNC_STATUS) !== gl.SIGNALED; // biome-ignore format: one question
        if (open) setTimeout(look, 3);
        else {
          gl.deleteSync(sync);
          answer(performance.now() - begun);
        }
      };
      setTimeout(look);
    });
  }
}

function target(): WebGLRenderTarget {
  return new WebGLRenderTarget(1, 1, { minFilter: LinearFilter, magFilter: LinearFilter });
}
