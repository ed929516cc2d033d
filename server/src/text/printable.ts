import type { Csv } from "./csv";
import type { Html } from "./html";
import type { Json } from "./json";
import type { Markdown } from "./markdown";
import type { TerminalText } from "./terminal";

/** A report, a bill or a sheet: a page, a text or data. */
export type PrintedPage = Html | Markdown | Json;

/** What a command writes: each made safe for what reads it, and all of them for the terminal that it may be shown on. */
export type Printable = TerminalText | Html | Markdown | Json | Csv;
