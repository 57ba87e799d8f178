// What docs_assets/editor.js, places.js and complete.js use: the editor, and a reader of JSON that keeps places.
export { autocompletion, closeBrackets, closeBracketsKeymap, completionKeymap, startCompletion } from "@codemirror/autocomplete";
export { defaultKeymap, history, historyKeymap } from "@codemirror/commands";
export { json } from "@codemirror/lang-json";
export { bracketMatching, foldGutter, foldKeymap, HighlightStyle, indentOnInput, syntaxHighlighting } from "@codemirror/language";
export { lintGutter, lintKeymap, setDiagnostics } from "@codemirror/lint";
export { search, searchKeymap } from "@codemirror/search";
export { EditorState } from "@codemirror/state";
export { EditorView, highlightActiveLine, keymap, lineNumbers } from "@codemirror/view";
export { tags } from "@lezer/highlight";
export { findNodeAtLocation, getLocation, getNodeValue, modify, parse, parseTree } from "jsonc-parser";
