// The README of a package: the picture stays where the source is, for the editor's page of an extension shows none that
// has no address, and puts the sign of a broken one in its place.

const PICTURE = /^!\[[^\]]*\]\([^)]*\)\n\n/gm;

/** @param {string} text the project's README @returns {string} the same without pictures */
export const withoutPictures = (text) => text.replace(PICTURE, "");
