// How long the tests wait for what they look for. Nothing here slows down a quick machine: all of it is patience.

/** For one thing on the screen, in milliseconds. */
export const SHORT = 15_000;
/** Between two looks, in milliseconds. */
export const POLL = 60;
/** For a box or a menu to open on its key before the key is taken as missed, in milliseconds; see `longer`. */
const MISSED = 4_000;
/** Of the looks that an idle machine takes in a time, how many there have to be before the time counts as over. */
const SHARE = 1 / 4;

/** For the nth time that a key is pressed: on a busy machine the first box was perhaps only on its way. */
export const longer = (nth) => nth * MISSED;

/**
 * Says when waiting is over, asked after each look. A time alone would be over on a busy machine before what is waited
 * for had its turn; so there is a number of looks, too: where the page takes longer over each, it is given longer.
 * @param {number} timeout milliseconds
 * @returns {() => boolean}
 */
export function patience(timeout) {
  const deadline = Date.now() + timeout;
  const least = (timeout / POLL) * SHARE;
  let looks = 0;
  return () => {
    looks += 1;
    return looks >= least && Date.now() > deadline;
  };
}
