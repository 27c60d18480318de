import { isOddSpace, isPlain, isUnseen, lookAlikeOf } from './confusables.ts';
import type { Cursor } from './cursor.ts';
import type { Findings } from './findings.ts';

/** Looks at every character of every text and key of a document. */
export function checkCharacters(root: Cursor, find: Findings): void {
  if (isPlain(root.source.text) && !root.source.text.includes('\\u')) return;
  visit(root, find);
}

function visit(cursor: Cursor, find: Findings): void {
  if (cursor.text !== undefined) checkText(cursor.text, cursor, 'head', find);
  for (const item of cursor.items) visit(item, find);
  for (const [key, value] of cursor.entries) {
    checkText(key, value, 'key', find);
    visit(value, find);
  }
}

/** One diagnostic a text: the first character that is not what it seems. */
function checkText(text: string, at: Cursor, part: 'head' | 'key', find: Findings): void {
  if (isPlain(text)) return;
  for (const word of text.matchAll(/\p{L}[\p{L}\p{M}]*|[^\p{L}]/gu)) {
    const offset = oddCharacter(word[0]);
    if (offset === undefined) continue;
    const character = String.fromCodePoint(word[0].codePointAt(offset)!);
    const start = word.index + offset;
    find.report('look-alike-character', at, {
      part,
      span: [start, start + character.length],
      received: codePoint(character),
      ...explained(character),
    });
    return;
  }
}

/** Where a word holds a character that is not what it seems, if it does. */
function oddCharacter(word: string): number | undefined {
  // A Greek letter that stands alone is a symbol (`α-blocker`); the micro sign has a character of its own.
  if (/^\p{Script=Greek}$/u.test(word) && word === word.toLowerCase() && word !== 'μ') return undefined;
  const latin = /\p{Script=Latin}/u.test(word);
  let offset = 0;
  for (const character of word) {
    const foreign = latin && !/[\p{Script=Latin}\p{Script=Common}\p{M}]/u.test(character);
    if (foreign || lookAlikeOf(character) !== undefined || isOddSpace(character) || isUnseen(character)) {
      return offset;
    }
    offset += character.length;
  }
  return undefined;
}

const codePoint = (character: string): string =>
  `U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`;

function explained(character: string): { message: string; hint: string } {
  const code = codePoint(character);
  if (isOddSpace(character)) {
    return { message: `a space that is no plain space (${code}) stands here`, hint: 'type a plain space' };
  }
  if (isUnseen(character)) {
    return { message: `a character that cannot be seen (${code}) stands here`, hint: 'delete it' };
  }
  const latin = lookAlikeOf(character);
  return latin === undefined
    ? {
        message: `\`${character}\` (${code}) is of another script than the word it stands in`,
        hint: 'type the word anew',
      }
    : { message: `\`${character}\` (${code}) only looks like \`${latin}\``, hint: `type \`${latin}\`` };
}
