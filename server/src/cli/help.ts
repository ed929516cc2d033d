import type { Parsed } from "./options";

type Topic = Extract<Parsed, { kind: "help" }>["of"];

export const HELP: Readonly<Record<Topic, string>> = {
  mendlog: `Mendlog reads repair logs and says what in them cannot be, is out of limits or is still unproven.

  mendlog check [paths...]   checks logs and the files they are judged by
  mendlog diagnose LOG       whom its readings suspect, and what to read next
  mendlog new --board NAME   a new log, with what the board calls for still to be filled in
  mendlog board draft        a board file from what the logs of a board say
  mendlog board import FILE  a board file from a netlist, a board layout or a parts list
  mendlog board limits LOG   its board file with what known boards read as limits
  mendlog report LOG         the owner's report of one job
  mendlog bill LOG           the bill of one job
  mendlog sheet LOG|BOARD    its tables with empty cells, to print and fill in by hand
  mendlog parts LOG...       what to fit and what was fitted, with stock and prices
  mendlog order [paths...]   what to order for all open jobs
  mendlog stats [DIR]        what all jobs add up to: limits, cures, parts that keep dying, hours
  mendlog export [DIR] -o OUTDIR
                             jobs, readings, verdicts, work, parts and findings as tables
  mendlog pool DIR...        limits from the exports of several shops
  mendlog serve --stdio      the language server, for editors
  mendlog --version

"mendlog check --help" says more.
`,
  check: `mendlog check [options] [paths...]

Checks the logs (*.md with "mendlog:" in the front matter) and the knowledge files (*.board.yaml,
*.device.yaml, *.procedure.yaml, *.limits.yaml, mendlog.shop.yaml) at or below the paths; without a path,
below the current folder. Other Markdown is left alone. Folders called node_modules or dist and those with
a name that begins with a dot are not entered unless they are named, and links that lead out of the folder
are not followed.

A path is judged by all knowledge files below one folder: the nearest folder at or above the path that
holds mendlog.shop.yaml; where there is none, the current folder if the path lies in it; else the
folder of the path.

  --format human|json|sarif   how findings are written (human)
  -o, --output FILE           write them to FILE instead of standard output
  --force                     write over FILE where it is there, unless it is a log or a knowledge file
  --fail-on LEVEL             exit with 1 from this severity on: error, warning, information, hint,
                              never (warning)
  --severity CODE=LEVEL       take a check's findings for error, warning, information or hint, or
                              leave them out with off; default is the check's own, also where
                              mendlog.shop.yaml has another; may be given more than once
  --option CODE.NAME=NUMBER   a number that a check goes by, as its page names it; may be given more
                              than once
  --stdin                     check standard input
  --stdin-path NAME           ... as if it were the file NAME (stdin.md)
  --color auto|always|never   colours; auto is only on a terminal and not where NO_COLOR is set
  -q, --quiet                 no summary and no progress
  --watch                     check again after every change, until it is ended with Ctrl+C
  --fix                       make the fixes that leave no doubt in the files: only how something is written
                              changes, never what is said; what is left is told
  --fix-dry-run               tell which these are, and write nothing
  --since REV                 check only what changed since git's revision REV, and files it does not know;
                              they are judged by all the others all the same
  --cache-dir DIR             keep what was read and found of a large folder in DIR, for the next time
                              (the user's folder for such files, which may be emptied at any time)
  --no-cache                  read everything again, and keep nothing
  -h, --help

Exit status: 0 no finding at or above --fail-on, 1 findings, 2 wrong use or a file that could not be
read (the others are checked all the same).
`,
  report: `mendlog report [options] LOG

Writes the owner's report of one log: what was found, done and fitted, readings before and after, the
proving table, and what the owner must check before the board is powered. A log with another stage
than "returned" gives a report marked as a draft.

The HTML page is one file: pictures of the log are put into it where they lie in the
workspace and are PNG, JPEG, GIF or WebP of at most 2 MiB; others are named in their place. Print it
from a browser for a PDF.

  --format html|md|json   the kind of report (by the ending of FILE, else html)
  --owner yes|no          whether the owner's name is in it (yes; no in json, which goes to others)
  -o, --output FILE       write it to FILE instead of standard output; FILE must lie below the current
                          folder or the workspace of the log, and must not be there yet
  --force                 write over FILE where it is there, unless it is a log or a knowledge file
  -h, --help

Exit status: 0 written, 2 wrong use, a log that could not be read, or a FILE that was refused.
`,
  bill: `mendlog bill [options] LOG

Writes the bill of one log: the hours under its heading "Hours", else the hours that the shop file gives
for each thing done, and the parts fitted at the prices of the stock, with the shop's currency, tax and
texts. A log with another stage than "returned" gives a draft that says so.

  --format html|md|json   the kind of bill (by the ending of FILE, else html)
  --owner yes|no          whether the owner's name and address are in it (yes; no in json)
  -o, --output FILE       write it to FILE instead of standard output, as for a report
  --force                 write over FILE where it is there, unless it is a log or a knowledge file
  -h, --help

Exit status: 0 written, 2 wrong use, a log that could not be read, or a FILE that was refused.
`,
  sheet: `mendlog sheet [options] LOG|BOARD

Writes the tables of one log with empty cells, to print and fill in by hand at the bench: cautions first,
then each place with its pin's name and what is expected there, and a number that leads back to the log.
Of a BOARD, by its file (*.board.yaml) or its id, it has the rails, every chip pin by pin and the matrices.

  --format html|md|json   the kind of sheet (by the ending of FILE, else html)
  -o, --output FILE       write it to FILE instead of standard output, as for a report
  --force                 write over FILE where it is there, unless it is a log or a knowledge file
  -h, --help

Exit status: 0 written, 2 wrong use, a log that could not be read, or a FILE that was refused.
`,
  new: `mendlog new [--board NAME] [options]

Begins the log of a board that came in: the front matter, the cautions, and the sections and tables that its
board file calls for, still to be filled in. A board that no file describes gets what every job has. It is the
text that "Start a new log" writes in the editor. What the checks have against it, such as a job number that
another log has, is told on standard error, and so is a board that no file describes yet.

  --board NAME        the board: the id or title of its board file, or any words, such as "Regatta controller"
  --job NUMBER        the job's number in your books (the one after the last, where other logs have one)
  --owner NAME
  --serial NUMBER     as printed, leading zeros too
  --revision ID       as printed on the board
  --symptom TEXT      a symptom of the board file, or the owner's own words; may be given more than once
  --meter ID          the meter of the shop file that will be used
  --received DAY      the day it came in, as 2026-03-20 (today)
  --comeback-of JOB   the earlier job that it is back because of
  -o, --output FILE   write it to FILE instead of standard output, and print its path; a folder gets a file
                      called as the logs around are. What is there already is never written over
  -h, --help

The boards and other logs are those of the folder that FILE is judged by, without it the current one; see
"mendlog check --help".

Exit status: 0 written, 2 wrong use, or a FILE that was not written.
`,
  board: `mendlog board draft [paths...] a board file from what the logs of a board say
mendlog board import FILE...   a board file from a netlist, a board layout or a parts list
mendlog board limits LOG       its board file with what known boards read as limits

"mendlog board import --help" says more.
`,
  "board draft": `mendlog board draft [options] [paths...]

Makes a board file of what the logs at or below the paths say of their board (without a path, below the
current folder): the chips with their numbers, rails by their names, nets found by continuity, the shape
of matrices and the symptoms seen. Behind each is the log and the line it is from. What is only
likely is written as a comment; limits that are only usual say so. Where two logs give a part two numbers, the
one that more of them give is written and the other told behind it.

What a board file has already stays as it was typed; what it lacks is added. It is what "Write a board
file from these logs" does in the editor.

  --board ID          the board, where the logs are of several; a name in words for a log that names none
  -o, --output FILE   write or complete the board file FILE (*.board.yaml) and print its path, instead of
                      printing the board file
  -h, --help

Exit status: 0 written, 2 wrong use, logs of several boards, a log that could not be read (the others are
used all the same), or nothing was written.
`,
  "board limits": `mendlog board limits [options] LOG

Puts what the boards of LOG's type read into their board file, as expected readings, each with its source: the
tolerance interval where five boards or more were returned, else what the reference jobs read (logs with
"reference: true" in the front matter), as wide as one board can honestly speak for others. What a person typed there
stays; limits proposed before are brought up to date. It is what "Propose these limits for the board file"
writes in the editor.

  -o, --output FILE   write the board file FILE, which may be the board file itself, and print its path, instead
                      of printing the board file
  -h, --help

The board file and the other logs are those of the folder that LOG is judged by; see "mendlog check --help".

Exit status: 0 written, 2 wrong use, nothing to propose, or nothing was written.
`,
  "board import": `mendlog board import [options] FILE...

Makes a board file of what others made of the board, or adds it to the board file that is there. Read are
IPC-D-356 and 356A netlists, netlists that begin with (export, board layouts that begin with (kicad_pcb,
and parts lists of cells separated by commas, semicolons or tabs, with a line of headers in any order. The
kind is told by what is in the file. Several files are of one board: a netlist says what is joined, a parts
list what is fitted; where two disagree the one named first is believed, and it is told.

Parts are matched to the library by their number and their pins. Rails and grounds are guessed from the
names of nets and from the supply pins on them; each says so behind it, and what only pins say is written
as a comment. What a board file has already stays as it was typed; what it lacks is added.

  -o, --output FILE       write or complete the board file FILE (*.board.yaml) and print its path, instead
                          of printing the board file
  --board ID              the id of a new board file (by the name of FILE, else of the first file)
  --format human|json     how the report is written: human on standard error; json is one object on
                          standard output, with the board file's text in it where there is no --output
  -h, --help

Exit status: 0 imported, 1 imported, but some of a file could not be read, 2 wrong use, or nothing was
written.
`,
  diagnose: `mendlog diagnose [options] LOG

Ranks what may be wrong with the board of one log by what it holds: readings out of limits, states that
contradict each other, dead lines, symptoms, and what cured the same symptom on the shop's earlier boards.
With each suspect stand the evidence for it, against it and not yet taken; then the next reading that tells
most for its minutes. Shares are of what was considered; they say where to look first and clear no part.

  --format human|json   how it is written (human)
  --top N               suspects and explanations listed at most (5)
  -h, --help

Exit status: 0 written, 2 wrong use, a log that could not be read or one without a known board.
`,
  parts: `mendlog parts [options] LOG...
mendlog parts [options] --all

Lists the parts of each log: those that readings disproved or the diagnosis suspects, and those that were
fitted, with sockets, what may be fitted instead, what is on the shelf, what to order and what it costs.
The shop file (mendlog.shop.yaml) gives stock and prices; a folder means all logs below it.

  --all                       every log below the current folder
  --format human|json|csv     how it is written (human); csv is RFC 4180
  -o, --output FILE           write to FILE instead of standard output; a file that is there stays
  --force                     ... unless this is given
  -h, --help

Exit status: 0, or 2 for wrong use or a file that could not be read.
`,
  order: `mendlog order [options] [paths...]

Adds up what the open jobs at or below the paths need (every stage but returned and scrapped), the job
received first being served first from the shelf, and lists what has to be ordered.

  --format human|json|csv     how it is written (human); csv is RFC 4180
  -o, --output FILE           write to FILE instead of standard output; a file that is there stays
  --force                     ... unless this is given
  -h, --help

Exit status: 0, or 2 for wrong use or a file that could not be read.
`,
  stats: `mendlog stats [options] [DIR]

Adds up the logs at or below DIR (the current folder) and writes one page: what boards of each type read,
place by place, with limits and how many boards each limit comes from; whether that drifts over the years;
what each meter reads there; what cured each symptom before; which parts were replaced most often; which
boards came back; how many hours a job of its kind takes. They are counts of what was written down: they
say where to look first, and prove nothing of any one board. No owner's name is in it.

The HTML page is one file that fetches nothing; print it from a browser for a PDF.

  --format html|json          how it is written (by the ending of FILE, else html)
  -o, --output FILE           write to FILE instead of standard output; a file that is there stays
  --force                     ... unless this is given
  -h, --help

Exit status: 0, or 2 for wrong use or a file that could not be read.
`,
  export: `mendlog export [options] [DIR] -o OUTDIR

Writes the logs at or below DIR (the current folder) as tables into the folder OUTDIR, which is made where
it is not there: jobs, symptoms, readings, verdicts, work, parts, findings and places, each as
newline-delimited JSON (NAME.ndjson) and as Parquet (NAME.parquet); tables.sql makes the tables in a
database, and export.json says what was written. What the columns mean is in docs/export.md; the shop's
questions are SQL files in server/data/questions.

Nothing that may say who the owner is goes out, unless it is asked for: no name, contact or address, no
complaint, file name, serial number or title, and no cell that is free text. Symptoms, designators,
signal names and the numbers of parts do go out as typed.

  -o, --output OUTDIR         the folder to write to
  --format all|ndjson|parquet which files are written (all)
  --shop NAME                 the shop's name in every row (as the shop file has it)
  --with-owner                with the columns that say, or may say, who the owner is
  --force                     write over files that are there
  -h, --help

Exit status: 0, or 2 for wrong use or a file that could not be read or written.
`,
  pool: `mendlog pool [options] DIR...

Makes limits from what several shops exported: each DIR is a folder that mendlog export wrote. At every
place of a board type that was read on five returned boards that agree, it writes the limits, how many
boards and how many shops they come from. The file is YAML; a shop file that names it with

  limits-from: pool.limits.yaml

has readings compared with it where neither the board file nor the shop's own jobs have limits.

  -o, --output FILE           write to FILE (NAME.limits.yaml) instead of standard output
  --force                     write over FILE where it is there
  -h, --help

Exit status: 0, or 2 for wrong use or an export that could not be read.
`,
  serve: `mendlog serve --stdio

Runs the language server over standard input and output, as editors start it.
`,
};
