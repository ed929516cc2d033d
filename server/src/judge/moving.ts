/** True for the note of a reading that says the line was moving: what a meter shows of it is an average, and no level. */
export const isMoving = (note: string | undefined): boolean =>
  note !== undefined &&
  /\b(?:puls(?:e|es|ing)|clock(?:ing|ed)?\s+(?:running|on)|toggl(?:es|ing)|moving|averag(?:e|es|ing)|avg|mean|square wave|oscillat(?:es|ing))\b/i.test(
    note,
  ) &&
  !/\bnot\s+(?:puls|toggl|moving)/i.test(note);
