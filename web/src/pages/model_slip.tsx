/** The slip of what was picked: a joint or a node in a few words, and the way to its page. */

import type { JSX } from "preact";
import type { ToldScene } from "../engine/read";
import type { Pick } from "../engine/types";
import { Framed, Gravity } from "../parts/notices";
import { addressOf } from "../state/route";
import { say, term } from "../state/say";
import { units } from "../state/ways";
import { showLength } from "../units/show";

interface Props {
  readonly scene: ToldScene;
  readonly pick: Pick;
  readonly onShow: (pick: Pick) => void;
  readonly onClose: () => void;
}

export function Slip({ scene, pick, onShow, onClose }: Props): JSX.Element {
  return (
    <section class="slip" aria-live="polite" aria-label={say("slip.name")}>
      <h2>{pick.id}</h2>
      {pick.what === "joint" ? (
        <JointWords scene={scene} id={pick.id} />
      ) : (
        <NodeWords scene={scene} id={pick.id} onShow={onShow} />
      )}
      <div class="row">
        <a class="button main" href={addressOf(scene.house, pick.what, pick.id)}>
          {say(pick.what === "joint" ? "slip.joint" : "slip.node")}
        </a>
        <button type="button" onClick={() => onShow(pick)}>
          {say("slip.middle")}
        </button>
        <button type="button" onClick={onClose}>
          {say("slip.close")}
        </button>
      </div>
    </section>
  );
}

function JointWords({ scene, id }: { scene: ToldScene; id: string }): JSX.Element {
  const { joints } = scene;
  const k = joints.ids.indexOf(id);
  const face = joints.faces[joints.face[k] ?? -1];
  const look = ["", "attention", "stop"][joints.look[k] ?? 0] ?? "";
  return (
    <p>
      {term("kind", joints.kinds[joints.kind[k] ?? -1])},{" "}
      <span class="figure">{showLength(joints.length[k] ?? 0, units.value)}</span>
      {face !== undefined && `, ${term("face", face)}`}{" "}
      {face !== undefined && joints.signed[k] === 0 && <Framed word={say("unsigned")} />}{" "}
      <Gravity severity={look} />
      <br />
      {say("slip.stage", { stage: term("stage", joints.stages[joints.stage[k] ?? -1]) })} ·{" "}
      {term("state", joints.states[joints.state[k] ?? -1])}
    </p>
  );
}

function NodeWords({
  scene,
  id,
  onShow,
}: {
  scene: ToldScene;
  id: string;
  onShow: (pick: Pick) => void;
}): JSX.Element {
  const { nodes, joints } = scene;
  const k = nodes.ids.indexOf(id);
  const meeting = [...nodes.joints.subarray(nodes.first[k], nodes.first[k + 1])];
  return (
    <div class="row">
      <span>{say("slip.meet", { n: meeting.length })}</span>
      {meeting.map((joint) => {
        const name = joints.ids[joint] ?? "";
        return (
          <button type="button" key={name} onClick={() => onShow({ what: "joint", id: name })}>
            {name}
          </button>
        );
      })}
    </div>
  );
}
