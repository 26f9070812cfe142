// What an explored figure draws: both sides, true to scale, in the page's colours and line styles.
import assert from "node:assert/strict";
import { describe, test } from "node:test";
import { build } from "esbuild";

const SOURCE = new URL("../src/elements/figure-plots.ts", import.meta.url).pathname;

async function loadPlots() {
  const result = await build({ entryPoints: [SOURCE], bundle: true, write: false, format: "esm" });
  const text = result.outputFiles[0].text;
  return import(`data:text/javascript;charset=utf-8,${encodeURIComponent(text)}`);
}

const { plotOf, sectionWords } = await loadPlots();
const ink = (token) => `the page's ${token}`;

const RADIUS = 3;
const EXTENT = { r: 4, z: [-5, 12] };

/** One side of a circle around the tip, from its distal to its proximal end. */
function halfCircle(radius) {
  return Array.from({ length: 181 }, (_, degree) => {
    const angle = (degree * Math.PI) / 180;
    return [radius * Math.sin(angle), -radius * Math.cos(angle)];
  });
}

function section(words) {
  return {
    words,
    insulated_above_mm: 5,
    electrode: [[-0.5, 11], [-0.5, 1], [0, 0], [0.5, 1], [0.5, 11]],
    frames: [
      { time_s: 0, contours: { 50: [], damage: [] } },
      { time_s: 10, contours: { 50: halfCircle(RADIUS), damage: halfCircle(2) } },
    ],
  };
}

function crossSection(...words) {
  return { kind: "cross-section", words: "all", sections: words.map(section), extent_mm: EXTENT };
}

/** Area inside a closed outline: the shoelace formula. */
function area({ x, y }) {
  const doubled = x.map((_, i) => {
    const next = (i + 1) % x.length;
    return x[i] * y[next] - x[next] * y[i];
  });
  return Math.abs(doubled.reduce((sum, part) => sum + part, 0)) / 2;
}

const named = (plot, name) => plot.traces.filter((trace) => trace.name === name);

describe("a cross-section", () => {
  const plot = plotOf(crossSection("one"), 1, ink);

  test("a contour of one side becomes the whole outline", () => {
    const [trace] = named(plot, "50 °C");
    // Area of a circle, pi r²; 360 chords fall short of it by 0.005 %.
    const circle = Math.PI * RADIUS ** 2;
    assert.ok(Math.abs(area(trace) - circle) < 1e-4 * circle, `${area(trace)} is not ${circle}`);
    assert.equal(Math.min(...trace.x), -Math.max(...trace.x));
  });

  test("the moment asked for is drawn; a boundary with nothing inside is left out", () => {
    const start = plotOf(crossSection("one"), 0, ink);
    assert.deepEqual(named(start, "50 °C"), []);
    assert.equal(named(plot, "50 °C").length, 1);
    // The needle is there at every moment.
    assert.ok(start.traces.some((trace) => trace.fill === "toself"));
  });

  test("a millimetre is as long across as along, over the extent of the data", () => {
    const { xaxis, yaxis } = plot.layout;
    assert.deepEqual([yaxis.scaleanchor, yaxis.scaleratio], ["x", 1]);
    assert.deepEqual(xaxis.range, [-EXTENT.r, EXTENT.r]);
    assert.deepEqual(yaxis.range, EXTENT.z);
  });

  test("the shaft is filled only where it is insulated", () => {
    const shaft = plot.traces.find((trace) => trace.fillcolor === ink("steel"));
    assert.deepEqual([Math.min(...shaft.y), Math.max(...shaft.y)], [5, 11]);
  });

  test("a boundary without a colour of its own differs by its line", () => {
    const [isotherm] = named(plot, "50 °C");
    const [damage] = named(plot, "damage");
    assert.equal(isotherm.line.color, ink("t50"));
    assert.deepEqual([damage.line.color, damage.line.dash], [ink("ink"), "dot"]);
  });

  test("every colour is asked of the page, so that both schemes are served", () => {
    const colours = JSON.stringify(plot).match(/"(color|fillcolor|\w*bgcolor|gridcolor)":"[^"]*"/g);
    assert.ok(colours.length > 5);
    for (const colour of colours) assert.match(colour, /the page's/);
  });
});

describe("a pair of cross-sections", () => {
  const plot = plotOf(crossSection("thin", "thick"), 1, ink);

  test("stand side by side, each true to scale, over the same extent", () => {
    const { xaxis, xaxis2, yaxis, yaxis2, grid } = plot.layout;
    assert.deepEqual([grid.rows, grid.columns], [1, 2]);
    assert.deepEqual([yaxis.scaleanchor, yaxis2.scaleanchor], ["x", "x2"]);
    assert.deepEqual(xaxis2.range, xaxis.range);
    assert.deepEqual(yaxis2.range, yaxis.range);
  });

  test("share one legend", () => {
    assert.deepEqual(named(plot, "50 °C").map(({ showlegend }) => showlegend), [true, false]);
  });

  test("are told apart in words", () => {
    assert.equal(sectionWords(crossSection("thin", "thick")), "A: thin | B: thick");
    assert.equal(plot.layout.xaxis2.title.text, "B, mm");
  });
});

test("lines keep the scales, the values and the names of their panel", () => {
  const series = ["80 °C", "90 °C"].map((name) => ({ name, x: [1, 2], y: [10, 100] }));
  const axes = { x: "time, s", y: "width, mm", x_scale: "linear", y_scale: "log" };
  const plot = plotOf({ kind: "lines", panels: [{ title: "growth", ...axes, series }] }, 0, ink);
  const { xaxis, yaxis } = plot.layout;
  assert.deepEqual([xaxis.type, yaxis.type], ["linear", "log"]);
  assert.deepEqual([xaxis.title.text, yaxis.title.text], ["time, s", "width, mm"]);
  assert.deepEqual(plot.traces.map(({ x, y, name }) => ({ name, x, y })), series);
  // Without colour, the line style tells them apart.
  assert.equal(new Set(plot.traces.map(({ line }) => line.dash)).size, 2);
});
