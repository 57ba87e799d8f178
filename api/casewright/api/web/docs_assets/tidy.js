// A job as text that people read: what fits on a line stands on one, so that sizes and their places are seen together.
const WIDTH = 78;

export function tidy(value, indent = "", before = 0) {
  const short = onLine(value);
  if (value === null || typeof value !== "object" || indent.length + before + short.length < WIDTH && indent) return short;
  const inner = `${indent}  `;
  const [open, close] = Array.isArray(value) ? "[]" : "{}";
  const names = Object.keys(value).map((key) => (Array.isArray(value) ? "" : `${JSON.stringify(key)}: `));
  const lines = Object.values(value).map((one, i) => `${inner}${names[i]}${tidy(one, inner, names[i].length)}`);
  return lines.length ? `${open}\n${lines.join(",\n")}\n${indent}${close}` : `${open}${close}`;
}

function onLine(value) {
  if (value === null || typeof value !== "object") return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map(onLine).join(", ")}]`;
  return `{${Object.entries(value).map(([key, one]) => `${JSON.stringify(key)}: ${onLine(one)}`).join(", ")}}`;
}
