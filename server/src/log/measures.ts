/** The measure of a pin-to-pin test: a beep, none, or the ohms between the two. */
export const CONTINUITY = "continuity";
