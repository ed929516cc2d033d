/** Where an instrument listens. */
export interface Address {
  readonly host: string;
  readonly port: number;
}

/** Registered with IANA for SCPI over a raw socket (from memory), and what most instruments listen on. */
export const SCPI_PORT = 5025;

/** Reads "192.168.1.50", "meter.local:5024", "[fe80::1]:5025" or "::1"; undefined where it is none of these. */
export function parseAddress(text: string): Address | undefined {
  const typed = text.trim();
  const match =
    /^(?:\[([0-9a-f:.%\w-]+)\]|([^\s:/\\[\]@?#]+)|([0-9a-f]*(?::[0-9a-f]*){2,}))(?::(\d{1,5}))?$/i.exec(
      typed,
    );
  if (!match) return undefined;
  const [, bracketed, name, bare, digits] = match;
  const host = bracketed ?? name ?? bare;
  const port = digits === undefined ? SCPI_PORT : Number(digits);
  if (host === undefined || port < 1 || port > 65_535) return undefined;
  return { host, port };
}
