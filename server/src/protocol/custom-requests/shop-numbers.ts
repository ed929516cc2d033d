import type { OwnRequest } from "./request";

/** A page to be shown as it is. */
export interface ShopPage {
  /** A whole HTML document, without a script and with nothing to fetch; what was typed into logs is made safe in it. */
  readonly html: string;
}

/** What all jobs of the workspace add up to, as they stand on disk. */
export const SHOP_NUMBERS: OwnRequest<Record<string, never>, ShopPage> = { method: "mendlog/shopNumbers" };
