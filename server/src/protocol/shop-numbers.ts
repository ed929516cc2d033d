import { stopIfCancelled } from "../base/cancellation";
import { SHOP_NUMBERS } from "./custom-requests/shop-numbers";
import { onOwn } from "./own-request";
import { whenAllRemembered } from "./remembered";
import type { Session } from "./session";

/** Answers what all jobs add up to; of many of them it is worked out by another thread. */
export function handleShopNumbers(session: Session): void {
  onOwn(session, SHOP_NUMBERS, "The shop's numbers", async (_, token) => {
    await whenAllRemembered(session, token);
    const html = await session.service.shopPage();
    stopIfCancelled(token);
    return { html };
  });
}
