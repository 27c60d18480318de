/**
 * Strong Kleene truth in two bits: bit 0 "certainly true", bit 1 "possibly true". So `all` is `&`, `any` is `|`.
 */
export const FALSE = 0;
export const UNKNOWN = 2;
export const TRUE = 3;
export type Truth = typeof FALSE | typeof UNKNOWN | typeof TRUE;
export type TruthWord = 'true' | 'false' | 'unknown';

export const not = (t: Truth): Truth => (t === FALSE ? TRUE : t === TRUE ? FALSE : UNKNOWN);
export const and = (a: Truth, b: Truth): Truth => (a & b) as Truth;
export const or = (a: Truth, b: Truth): Truth => (a | b) as Truth;
/** From "true for every possible value" and "true for some possible value". */
export const truth = (certain: boolean, possible: boolean): Truth =>
  certain ? TRUE : possible ? UNKNOWN : FALSE;
export const word = (t: Truth): TruthWord => (t === TRUE ? 'true' : t === FALSE ? 'false' : 'unknown');
