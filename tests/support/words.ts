// What is said of something, in the words that are shown.
import { inWords, type Saying } from "../../server/src/text/saying";

type Told = { readonly says: Saying; readonly reference?: { readonly of: string; readonly source: string } };

/** The message alone: the fact, the cause and the step. */
export const words = (told: Told | undefined): string => (told ? inWords(told.says) : "");

/** What stands beside it on the hover: what else was weighed, whose figures they are, and what the limits are of. */
export const beside = (told: Told | undefined): string =>
  [told?.says.more, told?.says.source, told?.reference?.of, told?.reference?.source]
    .filter(Boolean)
    .join(" ");

/** The message, and what stands beside it. */
export const everything = (told: Told | undefined): string => `${words(told)} ${beside(told)}`;
