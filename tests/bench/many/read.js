// Reads every file below a folder once.
import { readFileSync } from "node:fs";
import { filesBelow } from "./files.js";

let length = 0;
for (const path of filesBelow(process.argv[2])) length += readFileSync(path).length;
console.log(length);
