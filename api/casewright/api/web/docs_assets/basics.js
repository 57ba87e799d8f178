// What the page's scripts share: where the service is, its JSON, and elements made in one line.
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
