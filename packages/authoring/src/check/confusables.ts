/** Letters of other scripts that look like a Latin one, by the Latin one. */
const LOOK_ALIKES: Readonly<Record<string, string>> = {
  a: 'аɑα',
  b: 'ЬƄ',
  c: 'сϲⅽ',
  d: 'ԁⅾ',
  e: 'еҽ',
  g: 'ɡ',
  h: 'һ',
  i: 'іιⅰ',
  j: 'јϳ',
  k: 'κ',
  l: 'ӏⅼ',
  m: 'ⅿ',
  n: 'ո',
  o: 'оοօ',
  p: 'рρ',
  q: 'ԛ',
  s: 'ѕ',
  u: 'սυ',
  v: 'νѵⅴ',
  w: 'ԝ',
  x: 'хⅹ',
  y: 'уү',
  z: 'ᴢ',
  A: 'АΑ',
  B: 'ВΒ',
  C: 'СϹⅭ',
  D: 'Ⅾ',
  E: 'ЕΕ',
  H: 'НΗ',
  I: 'ІΙӀⅠ',
  J: 'Ј',
  K: 'КΚK',
  L: 'Ⅼ',
  M: 'МΜⅯ',
  N: 'Ν',
  O: 'ОΟ',
  P: 'РΡ',
  S: 'Ѕ',
  T: 'ТΤ',
  V: 'Ⅴ',
  W: 'Ԝ',
  X: 'ХΧⅩ',
  Y: 'ҮΥ',
  Z: 'Ζ',
  µ: 'μ',
};

const TO_LATIN: ReadonlyMap<string, string> = new Map(
  Object.entries(LOOK_ALIKES).flatMap(([latin, others]) =>
    [...others].map((other) => [other, latin] as const),
  ),
);

/** The Latin character that a character looks like; full-width forms and styled letters included. */
export function lookAlikeOf(character: string): string | undefined {
  const known = TO_LATIN.get(character);
  if (known !== undefined) return known;
  const point = character.codePointAt(0)!;
  const styled = (point >= 0xff01 && point <= 0xff5e) || (point >= 0x1d400 && point <= 0x1d7ff);
  return styled ? character.normalize('NFKC') : undefined;
}

/** Spaces that do not break or have another width; a reader takes them for a plain one. */
const SPACES = /(?! )\p{Zs}/u;
/** Characters without any width, direction marks, and control characters other than a line feed. */
const UNSEEN = /(?!\n)[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]/u;

export const isOddSpace = (character: string): boolean => SPACES.test(character);
export const isUnseen = (character: string): boolean => UNSEEN.test(character);

/** The text with every look-alike replaced and everything unseen left out: what a reader takes it for. */
export function skeleton(text: string): string {
  if (isPlain(text)) return text;
  return [...text]
    .map((character) =>
      isUnseen(character) ? '' : isOddSpace(character) ? ' ' : (lookAlikeOf(character) ?? character),
    )
    .join('');
}

/** Only printable ASCII and line feeds: most texts, and every id. */
export const isPlain = (text: string): boolean => /^[\n\x20-\x7e]*$/.test(text);
