import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, test } from "vitest";
import { emptyTrace, traceOf } from "@/components/vacuum-picture/trace";
import { VacuumPicture } from "@/components/vacuum-picture/vacuum-picture";
import { VacuumSparkline } from "@/components/vacuum-picture/vacuum-sparkline";
import { toPa } from "@/lib/hvac/units";

const micron = (value: number) => toPa(value, "micron");
const hold = traceOf(
  [310, 360, 410, 450, 480].map((level, step) => ({ atS: step * 10, pressureAbsPa: micron(level) })),
);

describe("the picture as markup", () => {
  const markup = renderToStaticMarkup(
    <VacuumPicture
      title="Hold of circuit 1"
      trace={hold}
      targetPa={micron(500)}
      limitPa={micron(1000)}
      water={{ pressurePa: micron(19_230), wallWords: "21.5 °C" }}
      isolatedAtS={0}
      events={[{ id: "valve", atS: 0, kind: "valve-closed", words: "valve closed" }]}
      band={{ atS: [0, 30, 60], loPa: [40, 50, 60], midPa: [41, 60, 70], hiPa: [42, 70, 90] }}
      settlesAt={{ estimatePa: micron(520), loPa: micron(490), hiPa: micron(560) }}
      lastWord="now"
      verdict={{ state: "working", word: "Holding", sentence: "Heading for 520 micron." }}
    />,
  );

  test("has a name and a sentence for who cannot see it", () => {
    expect(markup).toContain("<title");
    expect(markup).toContain("Hold of circuit 1");
    expect(markup).toContain("last reading 480 micron, at or under the target of 500 micron, heading for 520 micron.");
  });

  test.each([
    "target 500 micron",
    "limit 1,000 micron",
    "water boils here",
    "at 21.5 °C",
    "now 480 micron",
    "heading for 520",
    "490 to 560 micron",
    "valve closed",
  ])("says %j at its place", (words) => expect(markup).toContain(`>${words}</text>`));

  test("tells its lines apart by their dashes, so that a black and white copy still does", () => {
    const dashes = [...markup.matchAll(/stroke-dasharray="([^"]+)" data-line/g)].map((match) => match[1]);
    expect(dashes).toHaveLength(3);
    expect(new Set(dashes).size).toBe(3);
  });

  test("shows the band, the level it heads for and the verdict", () => {
    expect(markup).toContain('data-part="band"');
    expect(markup).toContain('data-part="settles"');
    expect(markup).toMatch(/<figcaption.*Holding.*Heading for 520 micron\./);
  });

  test("lists its figures", () => {
    expect(markup).toContain("Figures of this picture");
    expect(markup).toContain("310 micron, 0 min after the start");
  });

  test("writes no number that is none", () => {
    expect(markup).not.toMatch(/NaN|Infinity|undefined/);
  });
});

test("readings that are no pressure are left out and counted, not drawn as zero", () => {
  const trace = { atS: [0, 5, 10, 15], pressureAbsPa: [micron(300), 0, Number.NaN, micron(310)] };
  const markup = renderToStaticMarkup(<VacuumPicture title="Dropped packets" trace={trace} />);
  expect(markup).toContain("4, of which 2 are no pressure and left out");
  expect(markup.match(/data-part="dot"/g)).toHaveLength(2);
});

test("an empty record says so, one being fetched says that", () => {
  expect(renderToStaticMarkup(<VacuumPicture title="None" trace={emptyTrace} />)).toContain("No readings yet");
  expect(renderToStaticMarkup(<VacuumPicture title="Soon" trace={emptyTrace} loading />)).toContain(
    "Fetching the trace",
  );
});

test("the small copy carries the same sentence as its name", () => {
  const markup = renderToStaticMarkup(
    <VacuumSparkline title="Hold of 1043" trace={hold} targetPa={micron(500)} isolatedAtS={0} />,
  );
  expect(markup).toContain(
    'aria-label="Hold of 1043: Pressure over time on a logarithmic scale, last reading 480 micron',
  );
});
