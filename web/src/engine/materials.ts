/** How the parts of the scene are inked: the shaders with what they share. */

import {
  BufferAttribute,
  BufferGeometry,
  Color,
  DoubleSide,
  FrontSide,
  GreaterDepth,
  type IUniform,
  LessEqualDepth,
  ShaderMaterial,
} from "three";
import type { Mesh } from "./mesh";
import * as shaders from "./shaders";

export type Shared = Record<string, IUniform>;

/** Bodies: `pass` 0 draws the solid ones, 1 those seen through. */
export function bodyMaterial(shared: Shared, pass: number): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader: shaders.BODY_VERTEX,
    fragmentShader: shaders.BODY_FRAGMENT,
    uniforms: { ...shared, pass: { value: pass } },
    side: FrontSide,
    transparent: pass === 1,
    depthWrite: pass === 0,
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 1,
  });
}

/** The edges of bodies that are drawn at all. */
export function edgeMaterial(shared: Shared): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader: shaders.BODY_VERTEX,
    fragmentShader: shaders.EDGE_FRAGMENT,
    uniforms: { ...shared, pass: { value: -1 } },
    transparent: true,
    depthWrite: false,
  });
}

/** Joints: what is hidden is drawn faintly; `over` inks one color over everything. */
export function lineMaterial(
  shared: Shared,
  how: { hidden: boolean; over?: string; widen?: number },
): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader: shaders.LINE_VERTEX,
    fragmentShader: shaders.LINE_FRAGMENT,
    uniforms: {
      ...shared,
      strength: { value: how.hidden ? 0.16 : 1 },
      widen: { value: how.widen ?? 0 },
      over: { value: new Color().setStyle(how.over ?? "#000000", "") },
      useOver: { value: how.over === undefined ? 0 : 1 },
    },
    side: DoubleSide,
    transparent: true,
    depthWrite: false,
    depthFunc: how.hidden ? GreaterDepth : LessEqualDepth,
    depthTest: how.over === undefined,
  });
}

/** Nodes. */
export function dotMaterial(shared: Shared): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader: shaders.NODE_VERTEX,
    fragmentShader: shaders.NODE_FRAGMENT,
    uniforms: { ...shared },
    transparent: true,
    depthWrite: false,
  });
}

/** The triangles of all bodies. */
export function bodyGeometry(mesh: Mesh): BufferGeometry {
  const body = new BufferGeometry();
  body.setAttribute("position", new BufferAttribute(mesh.position, 3));
  body.setAttribute("away", new BufferAttribute(mesh.away, 3));
  body.setAttribute("shade", new BufferAttribute(mesh.shade, 1));
  body.setAttribute("role", new BufferAttribute(mesh.role, 1));
  return body;
}

/** The edges of all bodies. */
export function edgeGeometry(mesh: Mesh): BufferGeometry {
  const edge = new BufferGeometry();
  edge.setAttribute("position", new BufferAttribute(mesh.edgePosition, 3));
  edge.setAttribute("away", new BufferAttribute(mesh.edgeAway, 3));
  edge.setAttribute("role", new BufferAttribute(mesh.edgeRole, 1));
  edge.setAttribute("shade", new BufferAttribute(new Float32Array(mesh.edgeRole.length), 1));
  return edge;
}
