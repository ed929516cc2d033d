export interface Package {
  readonly name: string;
  readonly version: string;
  /** SPDX expression. */
  readonly licence?: string;
  readonly texts: readonly string[];
  readonly home?: string;
}
export function packagesOf(inputs: Iterable<string>, root: string): Package[];
export function withoutLicence(packages: readonly Package[]): Package[];
export function noticesText(packages: readonly Package[]): string;
