/** How a reading makes itself heard, by the setting. */
export type CueSetting = "off" | "sound" | "speech";

/**
 * What is to be heard now: a sound as soon as a reading has come, speech once the pin that comes next is known as well.
 * @param isNew true where a reading has just come, false where the pin that comes next has
 */
export const cueNow = (cue: CueSetting, isNew: boolean): CueSetting =>
  (cue === "sound" && isNew) || (cue === "speech" && !isNew) ? cue : "off";
