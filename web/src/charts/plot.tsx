/** A chart that explains itself: title, units at both axes, a legend of line samples, a way to read it. */

import type { ComponentChildren, JSX } from "preact";
import { useEffect, useId, useRef } from "preact/hooks";
import type uPlot from "uplot";
import { LineSample } from "../parts/marks";

export interface Curve {
  readonly name: string;
  readonly color: string;
  readonly width?: number;
  /** Pixels drawn and left out, empty for a full line. */
  readonly dash?: readonly number[];
  /** Points alone, no line. */
  readonly mark?: "ring" | "disc";
  readonly values: readonly (number | null)[];
}

/** A line across the whole chart, at a place on one axis. */
export interface Limit {
  readonly at: number;
  readonly axis: "x" | "y";
  readonly name: string;
}

export interface PlotProps {
  readonly title: string;
  /** What the axes say, with the unit. */
  readonly xName: string;
  readonly yName: string;
  readonly xs: readonly number[];
  readonly curves: readonly Curve[];
  readonly limits?: readonly Limit[];
  /** Which axes go in ratios. */
  readonly log?: "x" | "both";
  readonly time?: boolean;
  readonly showX?: (value: number) => string;
  readonly showY?: (value: number) => string;
  readonly yRange?: readonly [number, number];
  /** How to read it, in a sentence or two. */
  readonly children?: ComponentChildren;
}

const HEIGHT = 340;

export function Plot(props: PlotProps): JSX.Element {
  const id = useId();
  const place = useRef<HTMLDivElement>(null);
  const key = JSON.stringify([
    props.title,
    props.xName,
    props.yName,
    props.xs,
    props.curves,
    props.limits,
  ]);
  useEffect(() => {
    let gone = false;
    let chart: uPlot | null = null;
    let watch: ResizeObserver | null = null;
    void import("./draw").then(({ drawPlot }) => {
      const frame = place.current;
      if (gone || frame === null) return;
      chart = drawPlot(frame, props, HEIGHT);
      watch = new ResizeObserver(() =>
        chart?.setSize({ width: frame.clientWidth, height: HEIGHT }),
      );
      watch.observe(frame);
    });
    return () => {
      gone = true;
      watch?.disconnect();
      chart?.destroy();
    };
  }, [key]);
  return (
    <figure class="plot" aria-labelledby={`${id}-title`} aria-describedby={`${id}-read`}>
      <h3 id={`${id}-title`}>{props.title}</h3>
      <p class="axis-name">{props.yName}</p>
      <div ref={place} class="plot-place" aria-hidden="true" />
      <p class="axis-name end">{props.xName}</p>
      <ul class="plot-key">
        {props.curves.map((curve) => (
          <li key={curve.name}>
            <Sample curve={curve} />
            {curve.name}
          </li>
        ))}
        {(props.limits ?? []).map((limit) => (
          <li key={limit.name}>
            <LineSample style={{ color: "#101010", width: 2, dash: [2, 3], shown: true }} />
            {limit.name}
          </li>
        ))}
      </ul>
      <figcaption id={`${id}-read`}>{props.children}</figcaption>
    </figure>
  );
}

function Sample({ curve }: { curve: Curve }): JSX.Element {
  if (curve.mark === undefined)
    return (
      <LineSample
        style={{
          color: curve.color,
          width: curve.width ?? 2.5,
          dash: [...(curve.dash ?? [])],
          shown: true,
        }}
      />
    );
  return (
    <svg width="64" height="14" viewBox="0 0 64 14" aria-hidden="true">
      <circle
        cx="32"
        cy="7"
        r="5"
        fill={curve.mark === "disc" ? curve.color : "#fff"}
        stroke={curve.color}
        stroke-width="2.5"
      />
    </svg>
  );
}
