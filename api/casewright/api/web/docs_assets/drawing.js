// One kind of drawing, a sheet at a time, with the whole of it to save.
import { button, counted, el } from "./basics.js";

let count = 0;

/** Show a view's sheets. `file` names what is saved; `subject` narrows to one part, cabinet or piece of stock. */
export async function drawing(bench, view, title, subject) {
  count += 1;
  const query = subject ? `&subject=${encodeURIComponent(subject)}` : "";
  const image = el("img", { alt: "" });
  const words = el("figcaption", { class: "small", "aria-live": "polite" });
  const number = el("input", { type: "number", id: `sheet-${count}`, min: "1", value: "1", inputmode: "numeric" });
  const of = el("span", {});
  let sheet = 1;
  let sheets = 1;
  let content = null;
  const back = button("Previous", () => show(sheet - 1));
  const on = button("Next", () => show(sheet + 1));
  number.addEventListener("change", () => show(Math.min(Math.max(Math.trunc(number.valueAsNumber) || 1, 1), sheets)));

  async function show(wanted) {
    const answer = await bench.send(`v1/drawings/${view}?as=svg&page=${wanted}${query}`);
    if (!answer.ok) {
      const problem = await answer.json();
      words.textContent = [problem.detail, ...problem.errors.map((one) => one.fix)].join(" ");
      return false;
    }
    sheet = wanted;
    sheets = Number(answer.headers.get("Casewright-Pages") ?? 1);
    content = await answer.blob();
    const read = new DOMParser().parseFromString(await content.text(), "image/svg+xml");
    URL.revokeObjectURL(image.src);
    image.src = URL.createObjectURL(content);
    image.alt = read.querySelector("title")?.textContent ?? title;
    words.textContent = sheets > 1 ? `${image.alt}; sheet ${sheet} of ${sheets}` : image.alt;
    number.value = String(sheet);
    back.disabled = sheet <= 1;
    on.disabled = sheet >= sheets;
    return true;
  }

  if (!(await show(1))) return [el("p", {}, words.textContent)];
  number.max = String(sheets);
  of.textContent = `of ${sheets}`;
  const frame = el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": `${title}, to scroll` }, image);
  const turning = el("p", { class: "row" }, back, on, el("span", { class: "choice" }, el("label", { for: number.id }, "Sheet"), number, of));
  const figure = el("figure", {}, frame, words);
  const larger = button("Larger", () => larger.setAttribute("aria-pressed", String(figure.classList.toggle("large"))), { class: "plain", "aria-pressed": "false" });
  return [
    sheets > 1 ? turning : null,
    figure,
    el("p", { class: "row" },
      larger,
      button("Save this sheet (SVG)", () => bench.keep(content, `${view}-${sheet}.svg`), { class: "plain" }),
      bench.saver(`Save ${counted(sheets, "sheet")} (PDF)`, `v1/drawings/${view}?as=pdf${query}`, `${view}.pdf`),
      bench.saver("Save as DXF", `v1/drawings/${view}?as=dxf${query}`, `${view}.dxf`)),
  ];
}
