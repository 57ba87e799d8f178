// The page's beginning: finds where it is served, fills the reference, readies the form.
import { showReference } from "./reference.js";
import { readyForm } from "./try.js";

export const base = new URL(".", document.baseURI);

/** Make an element: attributes by name, then children (text or elements). */
export function el(tag, attributes, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes ?? {})) {
    if (value === true) made.setAttribute(name, "");
    else if (value !== false && value != null) made.setAttribute(name, value);
  }
  made.append(...children.flat().filter((child) => child != null));
  return made;
}

/** Fetch JSON from a path of this service. */
export async function getJson(path) {
  const answer = await fetch(new URL(path, base));
  if (!answer.ok) throw new Error(`${path} answered ${answer.status}`);
  return answer.json();
}

/** Open the fold that the address names, so that links into folds lead somewhere. */
export function openNamed() {
  const named = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (named instanceof HTMLDetailsElement) {
    named.hidden = false;
    named.open = true;
    named.scrollIntoView();
  }
}

window.addEventListener("hashchange", openNamed);
readyForm();
getJson("openapi.json").then((description) => {
  document.getElementById("version").textContent = description.info.version;
  showReference(description);
  openNamed();
}, (error) => {
  document.getElementById("path-list").append(el("p", {}, `The reference cannot be shown: ${error.message}.`));
});
