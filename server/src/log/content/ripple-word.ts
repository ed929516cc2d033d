/** Words over, or in front of, what is left of the mains on a rail. */
export const RIPPLE_WORD =
  /\b(?:ripple|noise|hum|a\.?c\.?|v ?ac|ac ?v|v?pp|p-p|mvpp|mvac|mvp-p|mvss|vss|brumm\w*|\w*welligkeit)\b/i;
