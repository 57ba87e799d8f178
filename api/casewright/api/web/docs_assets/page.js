// The page's beginning: fills the reference, readies the bench.
import { el, getJson } from "./basics.js";
import { readyBench } from "./bench.js";
import { showReference } from "./reference.js";

/** Open the fold that the address names, so that links into folds lead somewhere. */
function openNamed() {
  const named = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (named instanceof HTMLDetailsElement) {
    named.hidden = false;
    named.open = true;
    named.scrollIntoView();
  }
}

window.addEventListener("hashchange", openNamed);
const described = getJson("openapi.json");
readyBench(described);
described.then((description) => {
  document.getElementById("version").textContent = description.info.version;
  showReference(description);
  openNamed();
}, (error) => {
  document.getElementById("path-list").append(el("p", {}, `The reference cannot be shown: ${error.message}.`));
});
