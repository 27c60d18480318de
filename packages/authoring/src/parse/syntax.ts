import { type Node, type ParseError, printParseErrorCode } from 'jsonc-parser';

export interface SyntaxProblem {
  readonly offset: number;
  readonly length: number;
  readonly message: string;
  readonly expected?: string;
}

const EXPECTED: Readonly<Record<string, string>> = {
  PropertyNameExpected: 'a key in double quotes',
  ValueExpected: 'a value',
  ColonExpected: 'a colon',
  CommaExpected: 'a comma',
  CloseBraceExpected: 'a closing `}`',
  CloseBracketExpected: 'a closing `]`',
  EndOfFileExpected: 'the end of the document',
};

const REFUSED: Readonly<Record<string, string>> = {
  InvalidSymbol: 'this is not JSON',
  InvalidNumberFormat: 'this is not a number of JSON',
  InvalidCommentToken: 'JSON has no comments, so use a `note` key',
  UnexpectedEndOfComment: 'JSON has no comments, so use a `note` key',
  UnexpectedEndOfString: 'the text is not closed by a double quote',
  UnexpectedEndOfNumber: 'the number is not complete',
  InvalidUnicode: 'the unicode escape is not complete',
  InvalidEscapeCharacter: 'this escape is not part of JSON',
  InvalidCharacter: 'a control character stands in a text',
};

/** The first thing that is wrong with the text as JSON; what follows a first error is mostly its echo. */
export function syntaxProblem(
  text: string,
  errors: readonly ParseError[],
  root: Node | undefined,
): SyntaxProblem | undefined {
  const first = [...errors].sort((a, b) => a.offset - b.offset)[0];
  if (first !== undefined) {
    const name = printParseErrorCode(first.error);
    const expected = EXPECTED[name];
    return expected === undefined
      ? { offset: first.offset, length: first.length, message: REFUSED[name] ?? 'this is not JSON' }
      : { offset: first.offset, length: first.length, message: `${expected} is missing here`, expected };
  }
  if (root === undefined)
    return { offset: 0, length: 0, message: 'the document is empty', expected: 'a value' };
  try {
    JSON.parse(text);
    return undefined;
  } catch {
    // The tolerant reader let something pass that RFC 8259 does not: refuse it rather than guess its meaning.
    return { offset: 0, length: 0, message: 'the document is not strict JSON' };
  }
}
