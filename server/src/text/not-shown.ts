/**
 * Characters that stand in no page and in no Markdown: controls but for tab and line ends, halves of pairs, what is no character
 * (all parse errors in HTML), and those that turn the order of what is beside them round, by which "10 V" can be made to read
 * "01 V". The marks of direction that a name in Hebrew or Arabic needs only bear on themselves and stay.
 */
export const NOT_SHOWN =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\ufdd0-\ufdef\ufffe\uffff]|\p{Cs}/gu;
