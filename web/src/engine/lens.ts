/** The lens: puts an eye into the camera that draws, with parallel rays. */

import { Matrix4, type OrthographicCamera, Vector3 } from "three";
import { axesOf, type Eye } from "./camera";
import { add, scaled } from "./vector";

/** Aim a camera; `shape` is the width of the window over its height, `depth` how far it sees. [m] */
export function aim(camera: OrthographicCamera, eye: Eye, shape: number, depth: number): void {
  const half = eye.span / 2;
  const { right, up, toward } = axesOf(eye);
  camera.left = -half * shape;
  camera.right = half * shape;
  camera.top = half;
  camera.bottom = -half;
  camera.near = 0;
  camera.far = 2 * depth;
  camera.updateProjectionMatrix();
  const pose = new Matrix4().makeBasis(
    new Vector3(...right),
    new Vector3(...up),
    new Vector3(...toward),
  );
  pose.setPosition(new Vector3(...add(eye.center, scaled(toward, depth))));
  camera.matrixAutoUpdate = false;
  camera.matrix.copy(pose);
  camera.matrixWorld.copy(pose);
  camera.matrixWorldNeedsUpdate = true;
}
