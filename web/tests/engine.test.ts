import { describe, expect, it } from "vitest";
import { axesOf, between, fitted, moved, nearer, seenAt, turned } from "../src/engine/camera";
import { ASKED, rowOf, rowsOf } from "../src/engine/looks";
import { buildMesh } from "../src/engine/mesh";
import { Pace } from "../src/engine/pace";
import { pickAt } from "../src/engine/pick";
import { jointAways, segmentsOf, spotsOf } from "../src/engine/segments";
import type { Scene, Standing } from "../src/engine/types";
import { dot, size } from "../src/engine/vector";

/** A wall 2 m long and 2 m high, 0.2 m thick, with one joint on its south face and one behind it. */
const SCENE: Scene = {
  bodies: {
    ids: ["A.1"],
    roles: ["wall"],
    firstVertex: [0, 8],
    firstTriangle: [0, 4],
    firstEdge: [0, 1],
    positions: Float32Array.from([
      0, 0, 0, 2, 0, 0, 2, 0, 2, 0, 0, 2, 0, 0.2, 0, 2, 0.2, 0, 2, 0.2, 2, 0, 0.2, 2,
    ]),
    triangles: Uint32Array.from([0, 1, 2, 0, 2, 3, 4, 6, 5, 4, 7, 6]),
    edges: Uint32Array.from([0, 1]),
    outward: Float32Array.from([0, -1, 0]),
  },
  joints: [
    {
      id: "front",
      kind: "sill",
      bodies: [0],
      lines: [
        [
          [0, 0, 1],
          [2, 0, 1],
        ],
      ],
    },
    {
      id: "behind",
      kind: "sill",
      bodies: [],
      lines: [
        [
          [0, 3, 0.5],
          [2, 3, 0.5],
        ],
      ],
    },
  ],
  nodes: [{ id: "N-1", at: [2, 0, 1], joints: [0] }],
};
const mesh = buildMesh(SCENE);
const SOLID: Record<string, Standing> = { wall: "solid" };
const eye = { bearing: 180, tilt: 0, center: [1, 0, 1] as const, span: 4 };
const still = new Float32Array(6);
const world = {
  joints: SCENE.joints.map((joint) => joint.id),
  nodes: SCENE.nodes.map((node) => node.id),
  mesh,
  segments: segmentsOf(SCENE.joints, still),
  spots: spotsOf(SCENE.nodes, still),
  eye,
  apart: 0,
  cut: null,
  standing: SOLID,
  shown: () => true,
  nodesShown: false,
};

describe("the eye", () => {
  it("has square axes of unit length at any bearing and tilt", () => {
    for (const at of [
      { bearing: 0, tilt: 0 },
      { bearing: 148, tilt: 32 },
      { bearing: 270, tilt: 90 },
    ]) {
      const { right, up, toward } = axesOf(at);
      expect(
        Math.abs(dot(right, up)) + Math.abs(dot(up, toward)) + Math.abs(dot(right, toward)),
      ).toBeLessThan(1e-12);
      expect(size(right) * size(up) * size(toward)).toBeCloseTo(1, 12);
    }
  });

  it("sees east on the right when it looks from the south", () => {
    const axes = axesOf(eye);
    expect(seenAt(eye, axes, [2, 0, 1], 400, 400)[0]).toBeGreaterThan(200);
    expect(seenAt(eye, axes, [1, 0, 2], 400, 400)[1]).toBeLessThan(200);
  });

  it("holds still what lies under the finger when it goes nearer", () => {
    const axes = axesOf(eye);
    const before = seenAt(eye, axes, [1.5, 0, 1.5], 400, 400);
    const close = nearer(eye, 2, before[0] - 200, before[1] - 200, 400);
    const after = seenAt(close, axes, [1.5, 0, 1.5], 400, 400);
    expect(after[0]).toBeCloseTo(before[0], 9);
    expect(after[1]).toBeCloseTo(before[1], 9);
  });

  it("never tips over, and comes back after a whole turn", () => {
    expect(turned(eye, 0, 500).tilt).toBe(90);
    expect(turned(eye, 360, 0).bearing).toBe(180);
    expect(moved(eye, 100, 0, 400).center[0]).toBeCloseTo(0, 12);
  });

  it("glides the shorter way around, and arrives", () => {
    const from = { ...eye, bearing: 350 };
    expect(between(from, { ...eye, bearing: 10 }, 0.5).bearing).toBeCloseTo(0, 9);
    expect(between(from, eye, 1)).toEqual(eye);
  });

  it("fits the whole house into the window", () => {
    const whole = fitted(mesh.box, { bearing: 180, tilt: 0 }, 1);
    expect(whole.span).toBeGreaterThan(2);
    expect(whole.center[0]).toBeCloseTo(1, 6);
  });
});

describe("the mesh", () => {
  it("gives every triangle its place and every body its way out", () => {
    expect(mesh.position.length).toBe(4 * 9);
    expect(mesh.starts).toEqual([0, 12]);
    expect(mesh.aways[1]).toBeLessThan(0);
    const aways = jointAways(SCENE.joints, mesh);
    expect(aways.subarray(0, 3)).toEqual(mesh.aways);
    expect(spotsOf(SCENE.nodes, aways).away).toEqual(mesh.aways);
  });
});

describe("picking", () => {
  it("takes the joint under the finger", () => {
    expect(pickAt(world, 200, 200, 400, 400, 22)).toEqual({ what: "joint", id: "front" });
  });

  it("does not reach through a wall, unless the wall is see-through", () => {
    expect(pickAt(world, 200, 250, 400, 400, 10)).toBeNull();
    const ghost = { ...world, standing: { wall: "ghost" as const } };
    expect(pickAt(ghost, 200, 250, 400, 400, 10)).toEqual({ what: "joint", id: "behind" });
  });

  it("leaves out what the legend hides and what is cut away", () => {
    expect(pickAt({ ...world, shown: () => false }, 200, 200, 400, 400, 22)).toBeNull();
    const cut = { axis: "z" as const, at: 0.25, keep: "below" as const };
    expect(pickAt({ ...world, cut }, 200, 200, 400, 400, 5)).toBeNull();
  });
});

describe("a picture in time", () => {
  const layers = new Map([
    ["bodies", 100_000],
    ["lines", 20_000],
    ["edges", 100_000],
  ] as const);

  it("has everything where the machine is quick", () => {
    const pace = new Pace();
    for (const [layer, units] of layers) pace.learn(layer, units, 2);
    expect(pace.cost(layers)).toBeCloseTo(6, 9);
    expect([...pace.moving(layers)]).toEqual(["bodies", "lines", "edges"]);
  });

  it("leaves out what a slow machine cannot draw while the house moves, house and joints never", () => {
    const pace = new Pace();
    expect(pace.cost(layers)).toBeNull();
    pace.learn("bodies", 100_000, 400);
    expect(pace.piece("bodies")).toBe(10_000);
    expect([...pace.moving(layers)]).toEqual(["bodies", "lines", "edges"]);
    for (let k = 0; k < 5; k += 1) pace.moved(120, 1000 + k);
    expect([...pace.moving(layers)]).toEqual(["bodies", "lines"]);
  });

  it("takes a layer in again when there is time, and not at once the one that was too much", () => {
    const pace = new Pace();
    pace.moving(layers);
    pace.moved(120, 1000);
    expect(pace.moving(layers).size).toBe(2);
    pace.moved(5, 1100);
    expect(pace.moving(layers).size).toBe(2);
    pace.moved(5, 9000);
    expect(pace.moving(layers).size).toBe(3);
  });
});

describe("the looks", () => {
  it("tell every row of a legend apart by dashes or width, not by color alone", () => {
    for (const asked of ASKED) {
      const seen = rowsOf(asked).map(({ style }) => `${style.width} ${style.dash.join(" ")}`);
      expect(new Set(seen).size, asked).toBe(seen.length);
    }
  });

  it("grade chances and margins in steps, and say when nothing is known", () => {
    const answers = {
      kind: "sill",
      stage: null,
      state: "open",
      side: "none",
      look: "none",
      margin: null,
      leak: 0.07,
    };
    expect(rowOf("leak", answers)).toBe("step3");
    expect(rowOf("leak", { ...answers, leak: 1 })).toBe("step5");
    expect(rowOf("margin", answers)).toBe("none");
    expect(rowOf("margin", { ...answers, margin: 0.05 })).toBe("step4");
    expect(rowOf("margin", { ...answers, margin: -0.4 })).toBe("step5");
    expect(rowOf("margin", { ...answers, margin: 0.6 })).toBe("step1");
  });
});
