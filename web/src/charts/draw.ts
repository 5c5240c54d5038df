/** The drawing of a chart, loaded only where there is one. */

import uPlot from "uplot";
import "uplot/dist/uPlot.min.css";
import type { PlotProps } from "./plot";

const INK = "#101010";
const HAIR = "#dcd8cc";
const FONT = '13px "DejaVu Sans", "Noto Sans", system-ui, sans-serif';

/** Draw a chart into a place and return it. */
export function drawPlot(place: HTMLElement, props: PlotProps, height: number): uPlot {
  const ratios = { distr: 3 as const };
  const axis = (show: ((value: number) => string) | undefined, size: number): uPlot.Axis => ({
    font: FONT,
    stroke: INK,
    size,
    ...(props.log !== undefined ? { space: 26 } : {}),
    grid: { stroke: HAIR, width: 1 },
    ticks: { stroke: INK, width: 1, size: 6 },
    ...(show === undefined
      ? {}
      : { values: (_, marks) => marks.map((one) => (one === null ? "" : show(one))) }),
  });
  return new uPlot(
    {
      width: place.clientWidth,
      height,
      legend: { show: false },
      cursor: { drag: { x: false, y: false } },
      scales: {
        x: { time: props.time === true, ...(props.log === undefined ? {} : ratios) },
        y: {
          ...(props.log === "both" ? ratios : {}),
          ...(props.yRange === undefined
            ? {}
            : { range: [props.yRange[0], props.yRange[1]] as uPlot.Range.MinMax }),
        },
      },
      axes: [axis(props.showX, 42), axis(props.showY, 64)],
      series: [
        {},
        ...props.curves.map((curve) => ({
          stroke: curve.color,
          width: curve.mark === undefined ? (curve.width ?? 2.5) : 0,
          dash: [...(curve.dash ?? [])],
          spanGaps: true,
          points:
            curve.mark === undefined
              ? { show: false }
              : {
                  show: true,
                  size: 10,
                  width: 2.5,
                  stroke: curve.color,
                  fill: curve.mark === "disc" ? curve.color : "#fff",
                },
        })),
      ],
      hooks: { draw: [(chart) => drawLimits(chart, props)] },
    },
    [[...props.xs], ...props.curves.map((curve) => [...curve.values])] as uPlot.AlignedData,
    place,
  );
}

function drawLimits(chart: uPlot, props: PlotProps): void {
  const { ctx, bbox } = chart;
  for (const limit of props.limits ?? []) {
    const at = chart.valToPos(limit.at, limit.axis, true);
    const inside =
      limit.axis === "x"
        ? at >= bbox.left && at <= bbox.left + bbox.width
        : at >= bbox.top && at <= bbox.top + bbox.height;
    if (!inside) continue;
    ctx.save();
    ctx.strokeStyle = INK;
    ctx.lineWidth = 2 * devicePixelRatio;
    ctx.setLineDash([2 * devicePixelRatio, 3 * devicePixelRatio]);
    ctx.beginPath();
    if (limit.axis === "x") {
      ctx.moveTo(at, bbox.top);
      ctx.lineTo(at, bbox.top + bbox.height);
    } else {
      ctx.moveTo(bbox.left, at);
      ctx.lineTo(bbox.left + bbox.width, at);
    }
    ctx.stroke();
    ctx.restore();
  }
}
