// Scenarios that show on the screen what other tests hold below it. The short run, of every change, leaves them out, for
// opening a window takes two cores ten seconds; `npm run test:editor` runs them all.

/** Scenario -> the tests that hold the same without a window. */
export const HELD_ELSEWHERE = {
  "03-hover": "tests/features/hover",
  "05-live": "tests/protocol/diagnostics.test.ts",
  "06-definition": "tests/features/definition",
  "08-board-error": "tests/protocol/board-file.test.ts",
  "14-outline": "tests/features/symbols",
  "15-snippets": "tests/generate.test.ts",
  "34-format": "tests/features/format",
  "35-convert": "tests/features/refactor",
  "41-lenses": "tests/features/code-lens",
  "42-highlight": "tests/features/document-highlight",
  "43-select": "tests/features/selection-range",
  "45-references": "tests/features/references.test.ts",
  "46-rename": "tests/features/rename",
  "47-names-and-links": "tests/features/links",
  "48-move-files": "tests/features/moves",
  "49-expected-here": "tests/features/signature",
  "53-preview-live": "tests/protocol/preview.test.ts",
  "62-comeback": "tests/features/hover/earlier-job.test.ts",
  "67-parts-off": "tests/features/shared/apart.test.ts",
  "68-rom-image": "tests/protocol/images.test.ts",
  "70-folder-settings": "tests/protocol/settings.test.ts",
  "77-changed-on-disk": "tests/protocol/documents.test.ts",
  "87-many-folders": "tests/protocol/workspace.test.ts",
};
