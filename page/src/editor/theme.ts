// The editor in the desk's paper and ink.     (editor/theme.ts)
import { HighlightStyle, syntaxHighlighting } from "@codemirror/language";
import { EditorView } from "@codemirror/view";
import { tags } from "@lezer/highlight";

const MONO = "ui-monospace, 'SF Mono', 'DejaVu Sans Mono', 'Liberation Mono', Menlo, Consolas, monospace";

const paper = EditorView.theme({
  "&": { height: "100%", backgroundColor: "var(--paper)", color: "var(--ink)", fontSize: "13px" },
  "&.cm-focused": { outline: "2px solid var(--ink)", outlineOffset: "-2px" },
  ".cm-scroller": { fontFamily: MONO, lineHeight: "1.55" },
  ".cm-content": { caretColor: "var(--ink)" },
  ".cm-cursor": { borderLeftColor: "var(--ink)", borderLeftWidth: "2px" },
  ".cm-gutters": { backgroundColor: "var(--paper-2)", color: "var(--ink-3)", border: "none" },
  ".cm-activeLine, .cm-activeLineGutter": { backgroundColor: "color-mix(in srgb, var(--paper-3) 45%, transparent)" },
  "&.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground, .cm-selectionBackground": {
    backgroundColor: "color-mix(in srgb, var(--ink) 22%, transparent)",
  },
  ".cm-lintRange-error": {
    backgroundImage: "none",
    textDecoration: "underline wavy var(--ink) 1.5px",
    textUnderlineOffset: "3px",
    backgroundColor: "color-mix(in srgb, var(--ink) 10%, transparent)",
  },
  ".cm-tooltip": { backgroundColor: "var(--paper)", color: "var(--ink)", border: "1px solid var(--rule-2)" },
  ".cm-diagnostic-error": { borderLeft: "3px solid var(--ink)" },
  ".cm-lint-marker-error": { content: "normal" },
  ".cm-lint-marker": { width: "0.9em", height: "0.9em" },
  ".cm-panels": { backgroundColor: "var(--paper-2)", color: "var(--ink)" },
  ".cm-searchMatch": { backgroundColor: "color-mix(in srgb, var(--ink) 16%, transparent)" },
});

const inks = HighlightStyle.define([
  { tag: [tags.definition(tags.propertyName), tags.propertyName], color: "var(--ink)", fontWeight: "600" },
  { tag: [tags.comment, tags.lineComment], color: "var(--ink-3)", fontStyle: "italic" },
  { tag: [tags.string, tags.content, tags.attributeValue], color: "var(--ink-2)" },
  { tag: [tags.punctuation, tags.separator, tags.squareBracket, tags.brace], color: "var(--ink-3)" },
]);

export const deskTheme = [paper, syntaxHighlighting(inks)];
