// The tab of stock: what to buy, how each piece is cut, what is left.
import { counted, el, figure, table } from "./basics.js";
import { drawing } from "./drawing.js";

export async function stock(bench) {
  const { plan } = bench;
  const held = plan.stock;
  if (!held) return [el("p", {}, "The job lists no stock: add sheets, offcuts or boards under “stock”, and the cutting is worked out.")];
  const bought = held.buy.map((one) => [
    one.material, `${one.length_text} × ${one.width_text} × ${one.thickness_text}`, String(one.quantity),
    one.stock ?? "least size that will do", one.cost === null ? "" : figure(one.cost, 10),
  ]);
  return [
    ...short(held),
    el("h4", {}, "What to buy"),
    bought.length ? table("What to buy", ["Material", "Size", "Pieces", "In the list as", "Cost of all"], bought, [2, 4]) : el("p", {}, "Nothing: what is on hand yields every part."),
    el("p", { class: "small" }, `${figure(held.use * 100, 3)} % of what is cut becomes parts; ${counted(held.different_settings, "setting")} of the saw, gone back to ${counted(held.returns, "time")}.`),
    el("p", { class: "row" }, bench.saver("Cutting (CSV)", "v1/stock?as=csv", "cutting.csv")),
    el("h4", {}, "How each piece is cut"),
    ...(held.layouts.length ? await drawing(bench, "layout", "Layouts") : [el("p", {}, "Nothing is cut.")]),
    el("h4", {}, "What is left"),
    ...left(held.leftovers),
  ];
}

/** Return what is left: what is kept, each by itself, and behind it what is not, those alike counted. */
function left(leftovers) {
  if (!leftovers.length) return [el("p", {}, "Nothing.")];
  const kept = leftovers.filter((one) => one.keep);
  const alike = new Map();
  for (const { line } of leftovers.filter((one) => !one.keep)) alike.set(line, (alike.get(line) ?? 0) + 1);
  const rest = leftovers.length - kept.length;
  return [
    kept.length ? table("What is left", ["Keep, and write on it"], kept.map((one) => [one.line])) : el("p", {}, "Nothing that is large enough to keep."),
    rest ? el("details", {}, el("summary", {}, `Too small to keep: ${counted(rest, "piece")}`), table("Too small to keep", ["Piece", "Pieces"], [...alike].map(([line, count]) => [line, String(count)]), [1])) : null,
  ].filter(Boolean);
}

function short(held) {
  if (!held.short.length) return [];
  return [
    el("h4", {}, "Parts with no stock"),
    el("ul", { class: "plain" }, ...held.short.map((one) => el("li", { class: "stop" }, el("strong", {}, one.part), `: ${counted(one.quantity, "piece")} of ${one.material}. ${one.reason}`))),
  ];
}
