// Minor units of ISO 4217, table A.1 (from memory): how many digits behind the point an amount is paid in.

const NONE = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF";
const THREE = "BHD IQD JOD KWD LYD OMR TND";
const FOUR = "CLF UYW";

const exponents = new Map<string, number>([
  ...NONE.split(" ").map((code) => [code, 0] as const),
  ...THREE.split(" ").map((code) => [code, 3] as const),
  ...FOUR.split(" ").map((code) => [code, 4] as const),
]);

/** Digits behind the decimal point of a currency's smallest unit; 2 for all that are not known to differ. */
export const minorDigits = (currency: string | undefined): number => exponents.get(currency ?? "") ?? 2;
