import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { pathToFileURL } from "node:url";
import { promisify } from "node:util";
import { OUT } from "../harness.js";
import { install } from "../install.js";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** How the page is looked at. */
const LOOKS = {
  light: { width: 1000, media: { media: "screen", colorScheme: "light" } },
  dark: { width: 1000, media: { media: "screen", colorScheme: "dark" } },
  narrow: { width: 390, media: { media: "screen", colorScheme: "light" } },
  print: { width: 794, media: { media: "print", colorScheme: "light" } },
};

/** Widths between those of a telephone and a desk, where only the room is looked at. */
const BETWEEN = [640, 780];

/** What is written of a job, and how each page is titled. */
const TITLES = { report: /^Repair report/, bill: /^Bill/, sheet: /^Bench sheet/ };

/** An owner, a serial number and a note that want to be part of the page. */
const HOSTILE = `---
mendlog: 1
job: "<b>1</b>"
board: regatta-controller
owner: "<script>document.title = 'taken'</script>"
serial: "${"W".repeat(90)}"
---

## Notes for the owner

<img src=x onerror="document.title='taken'"> and <style>body{display:none}</style>
`;

export default {
  title:
    "the owner's report, the bill and the bench sheet of every demo log are readable by all, on any screen, in the dark and on paper",
  // Three papers of every log, each looked at in four ways: five minutes on a machine that does something else besides.
  timeout: 450_000,
  window: false,
  async run(_editor, { repository, cli, say }) {
    const folder = mkdtempSync(join(tmpdir(), "mendlog-owner-"));
    const { playwright, chromium: executablePath } = await install();
    const { chromium } = await import(pathToFileURL(playwright).href);
    const browser = await chromium.launch({ executablePath, args: ["--disable-dev-shm-usage"] });
    try {
      const demo = join(repository, "demo", "logs");
      // In the short run the returned job, which has all of it, and the hostile one.
      const wanted = process.env.MENDLOG_EDITOR === "short" ? /^2026-004-.*\.md$/ : /\.md$/;
      const logs = readdirSync(demo).filter((name) => wanted.test(name));
      writeFileSync(join(folder, "hostile.md"), HOSTILE);
      const asked = Object.keys(TITLES).flatMap((paper) =>
        [...logs.map((name) => join(demo, name)), join(folder, "hostile.md")].map((log) => ({ paper, log })),
      );
      // Two at a time: two dozen programs at once get in each other's way.
      const pages = [];
      const lane = async () => {
        for (let next = asked.shift(); next; next = asked.shift())
          pages.push(await write(cli, next.paper, next.log, folder));
      };
      await Promise.all([lane(), lane()]);
      assert.ok(pages.length >= 6);
      mkdirSync(OUT, { recursive: true });

      const page = await browser.newPage();
      const fetched = [];
      page.on("request", (request) => fetched.push(request.url()));
      await seesFaults(page);

      let contrasts = 0;
      for (const file of pages) {
        const name = file.slice(folder.length + 1, -".html".length);
        await page.goto(pathToFileURL(file).href);
        await page.evaluate(AXE);
        for (const [look, { width, media }] of Object.entries(LOOKS)) {
          await page.setViewportSize({ width, height: 900 });
          await page.emulateMedia(media);
          const at = `${name}, ${look}`;
          const { violations, contrast, unsure } = await examined(page);
          assert.deepEqual(violations, [], at);
          assert.deepEqual(unsure, [], `${at}: contrast that could not be told`);
          contrasts += contrast;
          assert.equal(await tooWide(page), 0, `${at}: wider than the screen`);
          assert.deepEqual(await drawingFaults(page), [], at);
          assert.match(await page.title(), TITLES[name.slice(0, name.indexOf("-"))]);
          if (name.includes("2026-011"))
            await page.screenshot({ path: join(OUT, `owner-${name}-${look}.png`), fullPage: true });
        }
        await page.emulateMedia(LOOKS.light.media);
        for (const width of BETWEEN) {
          await page.setViewportSize({ width, height: 900 });
          assert.equal(await tooWide(page), 0, `${name}: wider than a screen of ${width}`);
        }
        // The printed page as a file, to be leafed through.
        if (name.includes("2026-011"))
          for (const format of ["A4", "Letter"])
            await page.pdf({
              path: join(OUT, `owner-${name}-${format}.pdf`),
              format,
              preferCSSPageSize: true,
            });
      }
      assert.deepEqual(
        fetched.filter((url) => !/^(?:file|data|about):/.test(url)),
        [],
      );
      say(
        `${pages.length} pages, ${Object.keys(LOOKS).length} looks each, ${contrasts} contrasts of text computed`,
      );
    } finally {
      await browser.close();
      rmSync(folder, { recursive: true, force: true });
    }
  },
};

/** As it is done at the command line; gives the path of the page. */
async function write(cli, paper, log, folder) {
  const file = join(folder, `${paper}-${basename(log).replace(/md$/, "html")}`);
  await promisify(execFile)(process.execPath, [cli, paper, log, "--output", file], { cwd: folder });
  return file;
}

/** AXE was evaluated from outside the page, whose own policy lets no script in. */
function examined(page) {
  return page.evaluate(async () => {
    const { violations, passes, incomplete } = await globalThis.axe.run(document);
    const isContrast = ({ id }) => id === "color-contrast";
    const nodes = (rules) => rules.filter(isContrast).flatMap((rule) => rule.nodes);
    return {
      violations: violations.map(
        ({ id, impact, nodes: where }) => `${impact}: ${id}: ${where.map(({ html }) => html).join(" ")}`,
      ),
      contrast: nodes(passes).length,
      // What is behind the text of a drawing it never says; drawingFaults looks at that.
      unsure: nodes(incomplete).flatMap(({ html }) => (html.startsWith("<text") ? [] : [html])),
    };
  });
}

/** An examination that finds nothing wrong with a page that is wrong would prove nothing. */
async function seesFaults(page) {
  await page.setContent('<p style="color:#999;background:#fff">pale</p><img src="data:,">');
  await page.evaluate(AXE);
  const { violations } = await examined(page);
  const found = violations.join("\n");
  for (const rule of ["color-contrast", "image-alt", "html-has-lang"]) assert.match(found, new RegExp(rule));
}

const tooWide = (page) =>
  page.evaluate(() => {
    const { scrollWidth, clientWidth } = document.documentElement;
    return Math.max(0, scrollWidth - clientWidth);
  });

/** Labels of the small drawings that leave them, lie on each other, or have another colour than the page's text. */
const drawingFaults = (page) =>
  page.evaluate(() =>
    [...document.querySelectorAll("svg")].flatMap((drawing) => {
      const { width, height } = drawing.viewBox.baseVal;
      const texts = [...drawing.querySelectorAll("text")].map((text) => ({
        words: text.textContent,
        fill: getComputedStyle(text).fill,
        box: text.getBBox(),
      }));
      const outside = texts.filter(
        ({ box }) => box.x < -0.5 || box.x + box.width > width + 0.5 || box.y + box.height > height + 1,
      );
      const over = texts.flatMap((a, i) =>
        texts
          .slice(i + 1)
          .filter(
            ({ box: b }) =>
              a.box.x < b.x + b.width &&
              b.x < a.box.x + a.box.width &&
              a.box.y < b.y + b.height - 3 &&
              b.y < a.box.y + a.box.height - 3,
          )
          .map((b) => `"${a.words}" lies on "${b.words}"`),
      );
      const ink = getComputedStyle(document.body).color;
      const odd = texts.filter(({ fill }) => fill !== ink);
      return [
        ...odd.map(({ words, fill }) => `"${words}" is ${fill} and not ${ink}`),
        ...outside.map(({ words }) => `"${words}" leaves the drawing`),
        ...over,
      ];
    }),
  );
