import { nodeAt } from "../syntax/yaml";
import { load } from "./load";
import type { Loaded } from "./loaded";
import type { Reporter } from "./semantics";
import { shapeShop } from "./shape-shop";
import type { Shop } from "./types";

/** Reads a `mendlog.shop.yaml`. */
export const loadShop = (text: string): Loaded<Shop> => load("shop", text, shapeShop, check);

/** Percent; no tax on work or goods takes more than they cost (common practice, no source). */
const MOST_TAX = 100;

/** Codes of ISO 4217 as the JavaScript engine has them. */
const CURRENCIES: ReadonlySet<string> = new Set(Intl.supportedValuesOf("currency"));

function check(report: Reporter, shop: Shop): void {
  const source = (path: (string | number)[]): string | undefined => {
    const node = nodeAt(report.tree, path)?.node;
    return node?.kind === "scalar" && node.value !== null ? node.source : undefined;
  };
  const stock = nodeAt(report.tree, ["stock"])?.node;
  const first = new Map<string, number>();
  let priced: (string | number)[] | undefined = shop.labour ? ["labour", "rate"] : undefined;
  for (let index = 0; stock?.kind === "list" && index < stock.items.length; index++) {
    if (!priced && source(["stock", index, "price"]) !== undefined) priced = ["stock", index, "price"];
    const part = source(["stock", index, "part"]);
    if (part === undefined) continue;
    const key = part.trim().toUpperCase();
    const before = first.get(key);
    if (before === undefined) {
      first.set(key, index);
      continue;
    }
    const span = report.spanOf(["stock", before, "part"]);
    report.at(
      ["stock", index, "part"],
      "duplicate-stock",
      `\`${part}\` is twice in \`stock\`, so its quantity is in doubt. Put both into one entry.`,
      span ? { related: [{ span, message: "the first of them" }] } : {},
    );
  }
  const currency = source(["currency"]);
  if (currency !== undefined && /^[A-Z]{3}$/.test(currency) && !CURRENCIES.has(currency)) {
    report.at(
      ["currency"],
      "unknown-currency",
      `\`${currency}\` is no currency of ISO 4217. Write three letters such as \`EUR\`, \`GBP\` or \`USD\`.`,
    );
  }
  for (const order of shop.orders ?? []) {
    const { part, quantity, ordered, received, receivedQuantity, index } = order;
    if (receivedQuantity !== undefined && receivedQuantity > quantity)
      report.at(
        ["orders", index, "received-quantity"],
        "order-pieces",
        `${receivedQuantity} x \`${part}\` were received, and ${quantity} ordered.`,
        { step: "Correct one of the two numbers." },
      );
    if (received !== undefined && received < ordered)
      report.at(
        ["orders", index, "received"],
        "order-days",
        `\`${part}\` was received on ${received}, before it was ordered on ${ordered}.`,
        { step: "Correct one of the two days." },
      );
  }
  const rate = shop.quote?.tax?.rate;
  if (rate !== undefined && Number.parseFloat(rate) > MOST_TAX)
    report.at(
      ["quote", "tax", "rate"],
      "tax-out-of-range",
      `A tax of \`${rate}\` is more than the amount it is on. Amounts are counted with it as written.`,
      { step: "Write the rate as a percentage, like `20 %`." },
    );
  if (priced && nodeAt(report.tree, ["currency"]) === undefined) {
    report.at(
      priced,
      "no-currency",
      `There are prices but no \`currency\`. Add one at the top, like \`currency: EUR\`.`,
    );
  }
}
