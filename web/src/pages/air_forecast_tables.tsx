/** What the forecast rests on: by way of working, by kind, by place, what it hangs on, days and year. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { ShareBar } from "../parts/share_bar";
import { Table } from "../parts/table";
import { addressOf } from "../state/route";
import { say, term, type WordKey } from "../state/say";
import { units } from "../state/ways";
import { showChance, showHourly, showShare, showSmallFlow } from "../units/flow";
import { showArea, showLength, showTemperature, showVolume } from "../units/show";

type Result = Schemas["ForecastOut"];

interface Props {
  readonly house: string;
  readonly result: Result;
}

export function ForecastTables({ house, result }: Props): JSX.Element {
  return (
    <>
      <Ways result={result} />
      <Kinds result={result} />
      <Places house={house} result={result} />
      <Drivers result={result} />
      <Weather result={result} />
      <FreshAir result={result} />
    </>
  );
}

function Ways({ result }: { result: Result }): JSX.Element {
  return (
    <Table
      title={say("forecast.ways")}
      rows={result.alternatives}
      keyOf={(row) => row.id}
      file="forecast"
      columns={[
        {
          key: "way",
          head: say("forecast.way"),
          exported: "workmanship",
          value: (row) => term("way", row.workmanship),
        },
        {
          key: "low",
          head: say("forecast.p05"),
          exported: "p05_m3_h",
          number: true,
          value: (row) => row.flow_50_m3_h.p05,
          cell: (row) => showHourly(row.flow_50_m3_h.p05, units.value),
        },
        {
          key: "middle",
          head: say("forecast.p50"),
          exported: "p50_m3_h",
          number: true,
          value: (row) => row.flow_50_m3_h.p50,
          cell: (row) => showHourly(row.flow_50_m3_h.p50, units.value),
        },
        {
          key: "high",
          head: say("forecast.p95"),
          exported: "p95_m3_h",
          number: true,
          value: (row) => row.flow_50_m3_h.p95,
          cell: (row) => showHourly(row.flow_50_m3_h.p95, units.value),
        },
        {
          key: "ach",
          head: say("forecast.ach50"),
          exported: "ach50_per_h",
          number: true,
          value: (row) => row.ach50_1_h?.p50 ?? null,
          cell: (row) => row.ach50_1_h?.p50.toFixed(2) ?? "–",
        },
        {
          key: "hole",
          head: say("forecast.hole"),
          exported: "ela_4_m2",
          number: true,
          value: (row) => row.ela_4_m2.p50,
          cell: (row) => smallArea(row.ela_4_m2.p50),
        },
        {
          key: "chance",
          head: say("forecast.chanceHead"),
          exported: "chance",
          number: true,
          value: (row) => row.chance,
          cell: (row) => (row.chance === null ? "–" : showChance(row.chance)),
        },
      ]}
    />
  );
}

/** An area as a hole in the hand: in² or cm². */
export const smallArea = (squareMetres: number): string =>
  units.value === "us"
    ? `${(squareMetres / 0.0254 ** 2).toFixed(1)} in²`
    : `${(squareMetres * 1e4).toFixed(0)} cm²`;

function Kinds({ result }: { result: Result }): JSX.Element {
  const most = Math.max(...result.kinds.map((row) => row.share));
  return (
    <Table
      title={say("forecast.kinds")}
      rows={result.kinds}
      keyOf={(row) => row.id}
      file="forecast-kinds"
      columns={[
        {
          key: "kind",
          head: say("joints.kind"),
          exported: "kind",
          value: (row) => term("kind", row.id),
        },
        {
          key: "count",
          head: say("forecast.count"),
          exported: "count",
          number: true,
          value: (row) => row.count,
        },
        {
          key: "length",
          head: say("joints.length"),
          exported: "length_m",
          number: true,
          value: (row) => row.length_m,
          cell: (row) => (row.length_m === 0 ? "–" : showLength(row.length_m, units.value)),
        },
        {
          key: "flow",
          head: say("forecast.leak"),
          exported: "flow_50_m3_h",
          number: true,
          value: (row) => row.flow_50_m3_h,
          cell: (row) => showSmallFlow(row.flow_50_m3_h, units.value),
        },
        {
          key: "span",
          head: say("forecast.span"),
          value: (row) => row.high_flow_50_m3_h,
          cell: (row) => (
            <span class="figure">
              {showSmallFlow(row.low_flow_50_m3_h, units.value)} –{" "}
              {showSmallFlow(row.high_flow_50_m3_h, units.value)}
            </span>
          ),
        },
        {
          key: "share",
          head: say("forecast.share"),
          exported: "share",
          value: (row) => row.share,
          cell: (row) => <ShareBar part={row.share} most={most} />,
        },
      ]}
    />
  );
}

function Places({ house, result }: Props): JSX.Element {
  return (
    <Table
      title={say("forecast.places")}
      rows={result.places}
      keyOf={(row) => row.id}
      file="forecast-places"
      selectable
      columns={[
        {
          key: "id",
          head: say("search.place"),
          exported: "place",
          id: true,
          value: (row) => row.id,
          cell: (row) => <PlaceLink house={house} id={row.id} sort={row.sort} />,
        },
        {
          key: "kind",
          head: say("joints.kind"),
          exported: "kind",
          value: (row) => term("kind", row.kind),
        },
        {
          key: "length",
          head: say("joints.length"),
          exported: "length_m",
          number: true,
          value: (row) => row.length_m,
          cell: (row) => (row.length_m === 0 ? "–" : showLength(row.length_m, units.value)),
        },
        {
          key: "flow",
          head: say("forecast.leak"),
          exported: "flow_50_m3_h",
          number: true,
          value: (row) => row.flow_50_m3_h,
          cell: (row) => showSmallFlow(row.flow_50_m3_h, units.value),
        },
        {
          key: "low",
          head: say("forecast.low"),
          exported: "low_flow_50_m3_h",
          number: true,
          value: (row) => row.low_flow_50_m3_h,
          cell: (row) => showSmallFlow(row.low_flow_50_m3_h, units.value),
        },
        {
          key: "high",
          head: say("forecast.high"),
          exported: "high_flow_50_m3_h",
          number: true,
          value: (row) => row.high_flow_50_m3_h,
          cell: (row) => showSmallFlow(row.high_flow_50_m3_h, units.value),
        },
        {
          key: "share",
          head: say("forecast.share"),
          exported: "share",
          number: true,
          value: (row) => row.share,
          cell: (row) => showShare(row.share),
        },
      ]}
    />
  );
}

/** The page of a joint or node; other places have none. */
export function PlaceLink(props: { house: string; id: string; sort: string }): JSX.Element {
  const { house, id, sort } = props;
  if (id.includes("/") || id === "elsewhere")
    return <>{id === "elsewhere" ? say("search.elsewhere") : id}</>;
  return <a href={addressOf(house, sort === "node" ? "node" : "joint", id)}>{id}</a>;
}

function Drivers({ result }: { result: Result }): JSX.Element {
  const most = Math.max(...result.drivers.map((row) => row.share));
  const name = (id: string): string =>
    id.startsWith("kind:") ? term("kind", id.slice(5)) : say(`driver.${id}` as WordKey);
  return (
    <Table
      title={say("forecast.drivers")}
      rows={result.drivers.filter((row) => row.share >= 0.001)}
      keyOf={(row) => row.id}
      columns={[
        { key: "what", head: say("forecast.driver"), value: (row) => name(row.id) },
        {
          key: "low",
          head: say("forecast.ifLow"),
          number: true,
          value: (row) => row.low_flow_50_m3_h,
          cell: (row) => showHourly(row.low_flow_50_m3_h, units.value),
        },
        {
          key: "high",
          head: say("forecast.ifHigh"),
          number: true,
          value: (row) => row.high_flow_50_m3_h,
          cell: (row) => showHourly(row.high_flow_50_m3_h, units.value),
        },
        {
          key: "share",
          head: say("forecast.doubt"),
          value: (row) => row.share,
          cell: (row) => <ShareBar part={row.share} most={most} />,
        },
      ]}
    />
  );
}

const degrees = (kelvin: number): string =>
  units.value === "us" ? `${(kelvin * 1.8).toFixed(0)} °F` : `${kelvin.toFixed(0)} K`;
const wind = (speed: number): string =>
  units.value === "us" ? `${(speed / 0.44704).toFixed(0)} mph` : `${speed.toFixed(1)} m/s`;
const heat = (joules: number): string =>
  units.value === "us"
    ? `${(joules / 1.05505585262e9).toFixed(2)} MMBtu`
    : `${(joules / 3.6e6).toFixed(0)} kWh`;

function Weather({ result }: { result: Result }): JSX.Element {
  const year = result.year;
  return (
    <>
      <Table
        title={say("forecast.days")}
        rows={result.days}
        keyOf={(row) => row.id}
        columns={[
          {
            key: "cold",
            head: say("forecast.colder"),
            number: true,
            value: (row) => row.difference_k,
            cell: (row) => degrees(row.difference_k),
          },
          {
            key: "wind",
            head: say("forecast.wind"),
            number: true,
            value: (row) => row.wind_m_s,
            cell: (row) => wind(row.wind_m_s),
          },
          {
            key: "basic",
            head: say("forecast.basic"),
            number: true,
            value: (row) => row.basic_flow_m3_h,
            cell: (row) => showHourly(row.basic_flow_m3_h, units.value),
          },
          {
            key: "enhanced",
            head: say("forecast.enhanced"),
            number: true,
            value: (row) => row.enhanced_flow_m3_h,
            cell: (row) => showHourly(row.enhanced_flow_m3_h, units.value),
          },
          {
            key: "heat",
            head: say("forecast.heat"),
            number: true,
            value: (row) => row.heat_w,
            cell: (row) => `${row.heat_w.toFixed(0)} W`,
          },
        ]}
      />
      {year !== null && (
        <p>
          {say("forecast.year", {
            weather: year.weather,
            indoor: showTemperature(year.indoor_c, units.value),
            low: showHourly(
              Math.min(year.basic.mean_flow_m3_h, year.enhanced.mean_flow_m3_h),
              units.value,
            ),
            high: showHourly(
              Math.max(year.basic.mean_flow_m3_h, year.enhanced.mean_flow_m3_h),
              units.value,
            ),
            heatLow: heat(Math.min(year.basic.heat_j, year.enhanced.heat_j)),
            heatHigh: heat(Math.max(year.basic.heat_j, year.enhanced.heat_j)),
          })}
        </p>
      )}
    </>
  );
}

function FreshAir({ result }: { result: Result }): JSX.Element {
  return (
    <>
      <h3>{say("forecast.fresh")}</h3>
      <p>
        {say("forecast.freshHelp", {
          list: result.fresh_air
            .map((row) => `${row.bedrooms}: ${showHourly(row.flow_m3_h, units.value)}`)
            .join("; "),
        })}
      </p>
      <p class="soft">
        {say("forecast.measured", {
          volume: showVolume(result.volume_m3, units.value),
          area: showArea(result.area_m2, units.value),
          floor: showArea(result.floor_area_m2, units.value),
        })}{" "}
        {result.measured_by}
      </p>
    </>
  );
}
