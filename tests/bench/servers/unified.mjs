// A Markdown server as a project would make one of its processor: parse, two lint rules, over stdio.
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const require = createRequire(join(process.argv[2], "package.json"));
const load = (name) => import(pathToFileURL(require.resolve(name)).href);
const [{ createUnifiedLanguageServer }, gfm, frontmatter, lint, duplicates] = await Promise.all(
  [
    "unified-language-server",
    "remark-gfm",
    "remark-frontmatter",
    "remark-lint",
    "remark-lint-no-duplicate-headings",
  ].map(load),
);
createUnifiedLanguageServer({
  configurationSection: "remark",
  packageField: "remarkConfig",
  rcName: "remark",
  processorName: "remark",
  processorSpecifier: "remark",
  defaultProcessor: (await load("unified")).unified().use((await load("remark-parse")).default),
  plugins: [gfm.default, frontmatter.default, lint.default, duplicates.default],
});
