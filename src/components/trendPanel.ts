import type { PanelDrawing } from "../views/trends/trendDrawing.ts";
import { attribute, text } from "./html.ts";

const markers: Readonly<Record<string, "circle" | "square" | "triangle">> = { A: "circle", B: "square", C: "triangle" };

const px = (n: number): number => Math.round(n * 10) / 10;

/** The outline of a zone's mark around a point. */
const shapeOf = (letter: string): ((at: { x: number; y: number }) => string) => {
  const marker = markers[letter] ?? "circle";
  if (marker === "square") return ({ x, y }) => `M${px(x - 4)} ${px(y - 4)}h8v8h-8Z`;
  if (marker === "triangle") return ({ x, y }) => `M${x} ${px(y - 5)}l5 9h-10Z`;
  return ({ x, y }) => `M${px(x - 4.4)} ${y}a4.4 4.4 0 1 0 8.8 0a4.4 4.4 0 1 0 -8.8 0Z`;
};

const path = (css: string, d: string): string => `<path class="${css}" d="${d}"></path>`;

/**
 * A panel of a trend as SVG. A site holds thousands, of a hundred elements each: one string is made several times faster than a
 * component of so many parts. `label`: what the picture says, for those who do not see it.
 */
export const trendPanel = (d: PanelDrawing, letter: string, label: string): string => {
  const { left, right, top, bottom } = d.plot;
  const shape = shapeOf(letter);
  const parts = [
    d.bands.map((b) => `<rect class="${attribute(b.css)}" x="${b.x}" y="${b.y}" width="${b.width}" height="${b.height}"></rect>`),
    d.yTicks.map(
      (t) =>
        `${path("hair", `M${left} ${t.y}H${right}`)}<text class="q" x="${left - 6}" y="${px(t.y + 4)}" text-anchor="end">${text(t.text)}</text>`,
    ),
    [path("ax", `M${left} ${bottom}H${right}`)],
    d.xTicks.map(
      (t) =>
        `${path("ax", `M${t.x} ${bottom}v4`)}<text class="q" x="${t.x}" y="${bottom + 18}" text-anchor="middle">${text(t.text)}</text>`,
    ),
    d.bandNames.map((b) => `<text class="q" x="${right + 6}" y="${b.y}">${text(b.text)}</text>`),
    d.breaks.map(
      (b) =>
        `<rect class="gap" x="${b.x - 2}" y="${top - 18}" width="4" height="${bottom - top + 18}"></rect>${path("brk", `M${b.x - 2.5} ${top - 20}V${bottom}M${b.x + 2.5} ${top - 20}V${bottom}`)}<text x="${b.x - 7}" y="${top - 10}" text-anchor="end">${text(b.left)}</text><text x="${b.x + 7}" y="${top - 10}">${text(b.right)}</text>`,
    ),
    d.events.map(
      (e) =>
        `${path("ev-l", `M${e.x} ${top - 6}V${bottom}`)}${path("ev-m", `M${e.x - 4} ${top - 6}h8l-4 6Z`)}<text x="${e.x}" y="${e.y}" text-anchor="${e.anchor}">${text(e.text)}</text>`,
    ),
    d.noise.map((n) => path("noise", n)),
    d.lines.map((l) => path("case", l) + path("ln", l)),
    d.bags.map((b) => path("op", shape(b))),
    d.points.map((p) => path(p.open ? "mean" : "pt", shape(p))),
    d.crosses.map((c) => path("cross", `M${px(c.x - 4)} ${px(c.y - 4)}l8 8M${px(c.x + 4)} ${px(c.y - 4)}l-8 8`)),
    d.labels
      .filter((l) => l.text !== "")
      .map((l) => `<text class="v" x="${l.x}" y="${l.y}" text-anchor="${l.anchor}">${text(l.text)}</text>`),
  ];
  const frame = `viewBox="0 0 ${d.width} ${d.height}" width="${d.width}" height="${d.height}"`;
  return `<svg ${frame} role="img" aria-label="${attribute(label)}" class="z${attribute(letter.toLowerCase())}"> ${parts.map((part) => part.join("")).join(" ")} </svg>`;
};
