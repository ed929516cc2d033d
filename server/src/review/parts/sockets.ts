import type { TestPoint } from "../../judge/test-point";

/** Rows of pins that a chip socket is made for: "DIP-14" is 14. Undefined for packages that take none. */
export function socketPins(place: TestPoint): number | undefined {
  const text = place.part?.package ?? place.device?.package.name ?? "";
  const match = /^\s*(?:DIP|DIL|PDIP|CERDIP)[- ]?(\d{1,2})\s*$/i.exec(text);
  return match?.[1] === undefined ? undefined : Number(match[1]);
}

/** Contacts of a socket by its name: "DIP-16 socket", "16-pin socket", "socket, 16 way". */
export function pinsOfSocket(text: string): number | undefined {
  if (!/\bsocket/i.test(text)) return undefined;
  const match = /(?:DIP|DIL)[- ]?(\d{1,2})\b|\b(\d{1,2})\s*-?\s*(?:pins?|way|contacts?|legs?|pol)\b/i.exec(
    text,
  );
  const digits = match?.[1] ?? match?.[2];
  return digits === undefined ? undefined : Number(digits);
}
