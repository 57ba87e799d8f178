// The job in an editor: lines are marked where the service found something, and what may be written is suggested.
//
// It stands in a shadow root, where its styles are style sheets made by script, which the page's policy lets pass.
import {
  autocompletion, bracketMatching, closeBrackets, closeBracketsKeymap, completionKeymap, defaultKeymap, EditorState,
  EditorView, findNodeAtLocation, foldGutter, foldKeymap, getNodeValue, highlightActiveLine, HighlightStyle, history,
  historyKeymap, indentOnInput, json, keymap, lineNumbers, lintGutter, lintKeymap, modify, search, searchKeymap, setDiagnostics, startCompletion,
  syntaxHighlighting, tags,
} from "./library/codemirror.js";
import { suggestions } from "./complete.js";
import { placeOf, pointerOf, readPlaces, stepsOf } from "./places.js";

const LOOK = EditorView.theme({
  "&": { height: "clamp(18rem, 58vh, 48rem)", border: "1px solid var(--quiet)", backgroundColor: "var(--field)", color: "var(--ink)", fontSize: ".875rem" },
  "&.cm-focused": { outline: "3px solid var(--link)", outlineOffset: "2px" },
  ".cm-scroller": { fontFamily: 'ui-monospace, "DejaVu Sans Mono", monospace', lineHeight: "1.45" },
  ".cm-gutters": { backgroundColor: "var(--paper)", color: "var(--quiet)", border: "0" },
  ".cm-activeLine, .cm-activeLineGutter": { backgroundColor: "transparent", boxShadow: "inset 0 0 0 1px var(--line)" },
  ".cm-cursor": { borderLeftColor: "var(--ink)" },
  ".cm-content": { caretColor: "var(--ink)" },
  ".cm-foldPlaceholder": { backgroundColor: "transparent", color: "var(--link)", border: "1px solid var(--line)" },
  "&.cm-focused .cm-matchingBracket": { backgroundColor: "transparent", outline: "1px solid var(--link)" },
  ".cm-tooltip, .cm-panels": { backgroundColor: "var(--paper)", color: "var(--ink)", border: "1px solid var(--quiet)", fontFamily: "inherit" },
  ".cm-panels input, .cm-panels button": { backgroundColor: "var(--field)", backgroundImage: "none", color: "var(--ink)", border: "1px solid var(--quiet)" },
  ".cm-tooltip-autocomplete ul li[aria-selected]": { backgroundColor: "var(--link)", color: "var(--paper)" },
  ".cm-completionDetail": { fontStyle: "normal", opacity: "1" },
  ".cm-completionInfo": { maxWidth: "20rem" },
  "@media (max-width: 40rem)": { ".cm-completionInfo": { display: "none" } }, // it would lie over the list
  ".cm-diagnostic-error": { borderLeft: "4px solid var(--stop)" },
  ".cm-diagnostic-warning": { borderLeft: "4px solid var(--care)" },
  // Marks drawn by borders: pictures that stand in a style sheet are none of this host's.
  ".cm-lint-marker": { content: "normal", width: ".8em", height: ".8em", marginTop: ".3em", borderRadius: "0" },
  ".cm-lint-marker-error": { content: "normal", backgroundColor: "var(--stop)" },
  ".cm-lint-marker-warning": { content: "normal", border: "3px solid var(--care)" },
  ".cm-lintRange-error": { backgroundImage: "none", borderBottom: "2px solid var(--stop)" },
  ".cm-lintRange-warning": { backgroundImage: "none", borderBottom: "2px dashed var(--care)" },
});
const COLOURS = HighlightStyle.define([
  { tag: tags.propertyName, color: "var(--link)" },
  { tag: [tags.number, tags.bool, tags.null], color: "var(--care)" },
]);
const FORMAT = { formattingOptions: { insertSpaces: true, tabSize: 2, eol: "\n" } };

/** Put an editor in the place of a plain one. `schemas` gives those of openapi.json; `changed` is called at a change. */
export function openEditor(host, plain, schemas, changed) {
  const shell = document.createElement("div");
  const root = shell.attachShadow({ mode: "open", delegatesFocus: true });
  const view = new EditorView({
    root,
    parent: root,
    state: EditorState.create({ doc: plain.text(), extensions: extensions(schemas, noted) }),
  });
  let places = readPlaces(plain.text());
  const focused = host.contains(document.activeElement);
  shell.id = "job";
  host.querySelector("textarea").replaceWith(shell);
  if (focused) view.focus();

  /** Take note of a change: what breaks the JSON is marked at once, other marks move with their lines till the answer. */
  function noted() {
    const before = places.broken;
    places = readPlaces(view.state.doc.toString());
    const { broken } = places;
    if (broken) showMarks([{ from: Math.max(broken.at - 1, 0), to: broken.at, severity: "error", message: `${broken.words}.` }]);
    else if (before) showMarks([]);
    changed();
  }

  function showMarks(marks) {
    // A change cannot be made inside another one's announcement.
    queueMicrotask(() => view.dispatch(setDiagnostics(view.state, marks)));
  }

  function mark(pointer, severity, message) {
    const { from, to } = placeOf(places.tree, pointer);
    const line = view.state.doc.lineAt(from);
    return { from, to: Math.min(to, line.to), severity, message };
  }

  return {
    text: () => view.state.doc.toString(),
    set(text) {
      view.dispatch({ changes: { from: 0, to: view.state.doc.length, insert: text }, selection: { anchor: 0 }, scrollIntoView: true });
    },
    /** Mark the lines of what is wrong, and of checks that stop. */
    mark(problems, stops) {
      const of = (check) => pointerOf(places.tree, check.subject);
      const marks = [
        ...problems.map((one) => mark(one.pointer, "error", `${one.rule === "needed" ? `${one.pointer} is needed.` : `Needs ${one.rule}; got ${one.got}.`} ${one.fix}`)),
        ...stops.filter((check) => of(check) !== null).map((check) => mark(of(check), "warning", `Stop: ${check.message}`)),
      ];
      showMarks(marks.sort((a, b) => a.from - b.from));
    },
    canShow: (subject) => pointerOf(places.tree, subject) !== null,
    /** Show what a pointer or a check's subject names: in sight, and the cursor there. */
    show(subject) {
      const { from } = placeOf(places.tree, pointerOf(places.tree, subject) ?? "");
      view.dispatch({ selection: { anchor: from }, effects: EditorView.scrollIntoView(from, { y: "center" }) });
      view.focus();
      shell.scrollIntoView({ block: "nearest" });
    },
    line: (pointer) => view.state.doc.lineAt(placeOf(places.tree, pointer).from).number,
    /** Return the line and the words of what breaks the JSON, or null. */
    broken() {
      const { broken } = places;
      return broken && { line: view.state.doc.lineAt(Math.max(broken.at - 1, 0)).number, words: `${broken.words}.` };
    },
    /** Change the job by a JSON Patch (RFC 6902), leaving the rest of its text as it is. It is undone as it was made: at once. */
    patch(operations) {
      const after = operations.reduce(withOperation, { state: view.state, changes: view.state.changes() });
      view.dispatch({ changes: after.changes, userEvent: "input" });
    },
  };
}

function extensions(schemas, changed) {
  return [
    lineNumbers(), foldGutter(), lintGutter(), history(), indentOnInput(), bracketMatching(), closeBrackets(),
    highlightActiveLine(), json(), search({ top: true }), syntaxHighlighting(COLOURS), EditorView.lineWrapping, LOOK,
    autocompletion({ override: [(context) => completions(context, schemas)], icons: false }),
    keymap.of([...closeBracketsKeymap, ...completionKeymap, ...searchKeymap, ...historyKeymap, ...foldKeymap, ...lintKeymap, ...defaultKeymap]),
    EditorView.contentAttributes.of({ "aria-label": "The job, as JSON; change what you like", spellcheck: "false" }),
    EditorView.updateListener.of((update) => update.docChanged && changed()),
  ];
}

async function completions(context, schemas) {
  const before = context.state.sliceDoc(Math.max(context.pos - 1, 0), context.pos);
  if (!context.explicit && !/[\w"]/.test(before)) return null;
  const found = suggestions(await schemas, context.state.doc.toString(), context.pos);
  return found && {
    from: found.typed,
    options: found.options.map(({ label, detail, info, ...rest }, i) => ({
      label, detail, info: info || undefined, boost: Math.max(99 - i, 0), apply: (view) => insert(view, found, rest),
    })),
  };
}

function insert(view, found, option) {
  const at = found.from + option.insert.length - option.back;
  view.dispatch({ changes: { from: found.from, to: found.to, insert: option.insert }, selection: { anchor: at }, userEvent: "input.complete" });
  if (option.more) startCompletion(view);
}

/** Return a state and the changes that led to it with those of one more operation of a JSON Patch. */
function withOperation(before, operation) {
  const text = before.state.doc.toString();
  const { tree } = readPlaces(text);
  const steps = typed(tree, stepsOf(operation.path));
  const value = ["copy", "move"].includes(operation.op)
    ? getNodeValue(findNodeAtLocation(tree, typed(tree, stepsOf(operation.from)))) : operation.value;
  if (operation.op === "test") return before;
  if (operation.op === "move") {
    return [{ op: "remove", path: operation.from }, { op: "add", path: operation.path, value }].reduce(withOperation, before);
  }
  const list = findNodeAtLocation(tree, steps.slice(0, -1))?.type === "array";
  const edits = modify(text, steps, operation.op === "remove" ? undefined : value, { ...FORMAT, isArrayInsertion: list && operation.op !== "replace" });
  const { state, changes } = before.state.update({ changes: edits.map((edit) => ({ from: edit.offset, to: edit.offset + edit.length, insert: edit.content })) });
  return { state, changes: before.changes.compose(changes) };
}

/** Return a pointer's steps as the reader of JSON wants them: places in lists as numbers, -1 past the last. */
function typed(tree, steps) {
  return steps.map((step, i) => {
    const list = findNodeAtLocation(tree, steps.slice(0, i).map((one) => (/^\d+$/.test(one) ? Number(one) : one)))?.type === "array";
    return list ? (step === "-" ? -1 : Number(step)) : step;
  });
}
