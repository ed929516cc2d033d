import { dataUri } from "../../pictures/data-uri";
import { PALETTES, type Picture, type Theme, themed } from "../../pictures/svg";
import { type Markdown, markdown, md, target } from "../../text/markdown";

export { inlined, type Theme } from "../../pictures/svg";

/** True for a name that pictures have colours for; anything may be asked, as it comes from a client. */
export const isTheme = (name: unknown): name is Theme =>
  typeof name === "string" && Object.hasOwn(PALETTES, name);

/** The picture in Markdown: an image that needs no file, its words for those who do not see it. */
export const pictureMarkdown = ({ svg, alt }: Picture, theme: Theme): Markdown =>
  markdown`![${md(alt)}](${target(dataUri(themed(svg, theme)))})`;
