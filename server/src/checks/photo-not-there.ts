import { photographsIn } from "../log/photographs";
import { blockCheck } from "./check";
import { exampleLog } from "./example-board";

/** Bytes; a photograph of a board that is larger is a mistake, or a burden to all who get it. */
const MOST = 50 * 1024 * 1024;
const MEGABYTE = 1024 * 1024;

export default blockCheck({
  code: "photo-not-there",
  title: "A photograph that is not there, or cannot be shown",
  severity: "warning",
  scope: "block",
  why: "A photograph that only one computer has is no evidence. What lies outside the workspace is never read, and what is very large cannot be shown or sent.",
  remedy:
    "Keep photographs in a folder beside the log, such as photos/, and name each by its path from the log. Make very large ones smaller.",
  examples: {
    bad: [
      exampleLog(`## Inspection

![U14 before](photos/u14.jpg)
^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ photo-not-there: There is no file "photos/u14.jpg"

![U15](../../../u15.jpg)
^^^^^^^^^^^^^^^^^^^^^^^^ photo-not-there: outside the workspace
`),
    ],
    good: [
      `//- log.md
${exampleLog(`## Inspection

![U14 before](u14.jpg)
`)}
//- u14.jpg
a picture
`,
    ],
  },
  *run({ block, ctx }) {
    for (const { path, span } of photographsIn(block)) {
      const file = ctx.images?.get(path);
      if (!file || file.ok) continue;
      switch (file.reason) {
        case "absent":
          yield {
            span,
            fact: `There is no file "${path}" beside this log.`,
            step: "Put it there, or correct the path.",
          };
          break;
        case "outside":
          yield {
            span,
            fact: `"${path}" lies outside the workspace, so it is not read.`,
            step: "Copy it into a folder beside this log.",
          };
          break;
        case "not-a-file":
          yield { span, fact: `"${path}" is no file.`, step: "Name the picture itself." };
          break;
        case "unreadable":
          yield {
            span,
            fact: `"${path}" is there and cannot be read.`,
            step: "Look at who may read the file.",
          };
          break;
        case "too-many":
          break;
        case "too-large":
          if ((file.size ?? 0) > MOST)
            yield {
              span,
              fact: `"${path}" has ${Math.round((file.size ?? 0) / MEGABYTE)} MB; the limit is ${MOST / MEGABYTE} MB.`,
              cause: "It is shown nowhere and left out of the report.",
              step: "Make it smaller, and keep the large one elsewhere.",
            };
      }
    }
  },
  noFix: "Only you know where the photograph is.",
});
