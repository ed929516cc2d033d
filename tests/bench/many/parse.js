// Parses every Markdown file below a folder once, one after another, and keeps none.
import { readFileSync } from "node:fs";
import remarkFrontmatter from "remark-frontmatter";
import remarkGfm from "remark-gfm";
import remarkParse from "remark-parse";
import { unified } from "unified";
import { filesBelow } from "./files.js";

const parser = unified().use(remarkParse).use(remarkGfm).use(remarkFrontmatter).freeze();
let nodes = 0;
for (const path of filesBelow(process.argv[2]))
  if (path.endsWith(".md")) nodes += parser.parse(readFileSync(path, "utf8")).children.length;
console.log(nodes);
