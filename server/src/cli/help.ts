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
  mendlog parts LOG...       what to fit and what was fitted, with stock and prices
  mendlog order [paths...]   what to order for all open jobs
  mendlog serve --stdio      the language server, for editors
  mendlog --version

"mendlog check --help" says more.
`,
  check: `mendlog check [options] [paths...]

Checks the logs (*.md whose front matter holds "mendlog:") and the knowledge files (*.board.yaml,
*.device.yaml, *.procedure.yaml, mendlog.shop.yaml) at or below the paths; without a path, below the
current folder. Other Markdown is left alone. Folders called node_modules or dist and those whose name
begins with a dot are not entered unless they are named.

A path is judged by all knowledge files below one folder: the nearest folder at or above the path that
holds mendlog.shop.yaml; where there is none, the current folder if the path lies in it; else the
folder of the path.

  --format human|json|sarif   how findings are written (human)
  -o, --output FILE           write them to FILE instead of standard output
  --fail-on LEVEL             exit with 1 from this severity on: error, warning, information, hint,
                              never (warning)
  --severity CODE=LEVEL       take a check's findings for error, warning, information or hint, or
                              leave them out with off; default takes that back; may be given
                              more than once
  --option CODE.NAME=NUMBER   a number that a check goes by, as its page names it; may be given more
                              than once
  --stdin                     check standard input
  --stdin-path NAME           ... as if it were the file NAME (stdin.md)
  --color auto|always|never   colours; auto is only on a terminal and not where NO_COLOR is set
  -q, --quiet                 no summary and no progress
  -h, --help

Exit status: 0 no finding at or above --fail-on, 1 findings, 2 wrong use or a file that could not be
read (the others are checked all the same).
`,
  report: `mendlog report [options] LOG

Writes the owner's report of one log: what was found, done and fitted, readings before and after, the
proving table, and what the owner must check before the board is powered. A log whose stage is not
"returned" gives a report marked as a draft.

The HTML page needs nothing but itself: pictures of the log are put into it where they lie in the
workspace and are PNG, JPEG, GIF or WebP of at most 2 MiB; others are named in their place. Print it
from a browser for a PDF.

  --format html|md|json   the kind of report (by the ending of FILE, else html)
  -o, --output FILE       write it to FILE instead of standard output; FILE must lie below the current
                          folder or the workspace of the log, and must not be there yet
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
current folder): the chips whose numbers they give, rails by their names, nets found by continuity, the shape
of matrices and the symptoms seen. Behind each stands the log and the line it was learned from. What is only
likely is written as a comment; limits that are only usual say so. Where two logs give a part two numbers, the
one that more of them give is written and the other told behind it.

Whatever a board file has already stays as it was typed; what it lacks is added. It is what "Write a board
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
tolerance interval where five boards or more were returned, else what the reference jobs read (logs whose front
matter holds "reference: true"), as wide as one board can honestly stand for others. What a person typed there
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
as a comment. Whatever a board file has already stays as it was typed; what it lacks is added.

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
The shop file (mendlog.shop.yaml) gives stock and prices; a folder stands for all logs below it.

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
  serve: `mendlog serve --stdio

Runs the language server over standard input and output, as editors start it.
`,
};
