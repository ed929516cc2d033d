import { dataUri } from "../pictures/data-uri";
import type { Picture } from "../pictures/svg";
import { md } from "./describe";

/** The picture in Markdown: an image that needs no file, its words for those who do not see it. */
export const pictureMarkdown = ({ svg, alt }: Picture): string => `![${md(alt)}](${dataUri(svg)})`;
