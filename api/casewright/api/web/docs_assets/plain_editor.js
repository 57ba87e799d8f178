// The job in a plain text field: what the page begins with, and stays with where the editor cannot be had.

export function plainEditor(host, changed) {
  const field = host.querySelector("textarea");
  field.addEventListener("input", changed);
  return {
    text: () => field.value,
    set(text) {
      field.value = text;
      field.setSelectionRange(0, 0);
      changed();
    },
    mark() {},
    canShow: () => false,
    show: () => field.focus(),
    line: () => null,
    broken: () => null,
  };
}
