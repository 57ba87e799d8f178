// What the page's scripts share: where the service is, what is sent to it, and elements made in one line.
export const base = new URL(".", document.baseURI);

/** The key that this service asks for, where it asks for one. Kept by this page alone, and gone with it. */
let key = "";

export function useKey(given) {
  key = given.trim();
}

/** Make an element: attributes by name, then children (text or elements). */
export function el(tag, attributes, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes ?? {})) {
    if (value === true) made.setAttribute(name, "");
    else if (value !== false && value != null) made.setAttribute(name, value);
  }
  made.append(...children.flat(Infinity).filter((child) => child != null && child !== false));
  return made;
}

/** Make a button that does something when it is pressed. */
export function button(words, act, attributes) {
  const made = el("button", { type: "button", ...attributes }, words);
  made.addEventListener("click", act);
  return made;
}

export class RefusedError extends Error {
  constructor(path, status) {
    super(`${path} answered ${status}`);
    this.status = status;
  }
}

/** Fetch JSON from a path of this service. Throws `RefusedError` where the answer is no 200. */
export async function getJson(path) {
  const answer = await fetch(new URL(path, base), { headers: key ? { "X-Api-Key": key } : {} });
  if (!answer.ok) throw new RefusedError(path, answer.status);
  return answer.json();
}

/** Send a job, as text, to a path of this service. */
export function send(path, body, signal) {
  const headers = { "Content-Type": "application/json", ...(key && { "X-Api-Key": key }) };
  return fetch(new URL(path, base), { method: "POST", body, headers, signal });
}

/** Let the browser save a blob under a name. */
export function save(blob, name) {
  const address = URL.createObjectURL(blob);
  el("a", { href: address, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
}

/** Return a number with so many digits that count, without needless zeros. */
export function figure(value, digits = 4) {
  return String(Number(value.toPrecision(digits)));
}

/** Return how many there are of something, in words. */
export function counted(count, one, several = `${one}s`) {
  return `${count} ${count === 1 ? one : several}`;
}

/** Make a table that scrolls inside itself; `numbers` says which columns are set flush right. */
export function table(label, heading, rows, numbers = []) {
  const cell = (tag, content, i) => el(tag, { class: numbers.includes(i) ? "number" : null, scope: tag === "th" ? "col" : null }, content);
  return el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": label }, el("table", {},
    el("thead", {}, el("tr", {}, ...heading.map((text, i) => cell("th", text, i)))),
    el("tbody", {}, ...rows.map((row) => el("tr", {}, ...row.map((content, i) => cell("td", content, i)))))));
}
