// Tabs by the ARIA authoring practice: arrows, Home and End move along them, Enter or Space opens the one in focus.
import { el } from "./basics.js";

/** Make tabs of `[id, words, show]`. `show` fills its panel when its tab is opened, and again after `refresh`. */
export function tabs(label, entries) {
  const list = el("div", { role: "tablist", "aria-label": label, class: "tabs" });
  const made = entries.map(([id, words, show]) => {
    const tab = el("button", { type: "button", role: "tab", id: `tab-${id}`, "aria-controls": `panel-${id}` }, words);
    const panel = el("div", { role: "tabpanel", id: `panel-${id}`, "aria-labelledby": tab.id, tabindex: "0", hidden: true });
    tab.addEventListener("click", () => open(id));
    list.append(tab);
    return { id, tab, panel, show, stale: true };
  });
  let opened = made[0];

  function open(id) {
    opened = made.find((one) => one.id === id);
    for (const one of made) {
      one.tab.setAttribute("aria-selected", String(one === opened));
      one.tab.tabIndex = one === opened ? 0 : -1;
      one.panel.hidden = one !== opened;
    }
    fill(opened);
  }

  async function fill(one) {
    if (!one.stale) return;
    one.stale = false;
    if (!one.panel.childElementCount) one.panel.append(el("p", {}, "Working it out …"));
    one.panel.setAttribute("aria-busy", "true");
    const turn = (one.turn = (one.turn ?? 0) + 1);
    let content;
    try {
      content = await one.show();
    } catch (error) {
      if (error.name === "AbortError") one.stale = true; // the job was changed meanwhile: made anew with its plan
      if (one.stale) return;
      content = [el("p", { class: "care" }, `This cannot be shown: ${error.message}.`)];
    }
    if (turn !== one.turn) return;
    one.panel.replaceChildren(...content.flat(Infinity).filter(Boolean));
    one.panel.removeAttribute("aria-busy");
  }

  list.addEventListener("keydown", (event) => {
    const from = made.findIndex((one) => one.tab === document.activeElement);
    const to = { ArrowRight: from + 1, ArrowLeft: from - 1, Home: 0, End: made.length - 1 }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    made[(to + made.length) % made.length].tab.focus();
  });

  return {
    elements: [list, ...made.map((one) => one.panel)],
    open,
    /** Have every panel made anew (or those named): the one that is open at once. */
    refresh(...ids) {
      for (const one of made) one.stale ||= !ids.length || ids.includes(one.id);
      open(opened.id);
    },
  };
}
