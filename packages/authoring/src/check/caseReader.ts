import { type Diagnostic, inDocumentOrder } from '../diagnostic.ts';
import { caseDocument } from '../documents/case.ts';
import type { Library } from '../library/shape.ts';
import { plainJson } from '../parse/plainJson.ts';
import { parseSource, type Source } from '../parse/source.ts';
import { caseContext, checkCaseContent } from './cases.ts';
import { checkCharacters } from './characters.ts';
import { Cursor } from './cursor.ts';
import { Findings } from './findings.ts';
import { issuesOf, reportIssues } from './issues.ts';
import { OWN } from './structure.ts';
import { survey } from './survey.ts';

export interface CaseRead {
  /** Plain JSON; undefined where the text itself is broken. */
  readonly value: unknown;
  readonly diagnostics: readonly Diagnostic[];
}

export type CaseReader = (path: string, text: string) => CaseRead;

/** Reads and checks many cases against one library, which is looked through once. */
export function caseReader(library: Pick<Library, 'documents'>): CaseReader {
  const shared = caseContext(survey(library), new Findings());
  return (path, text) => {
    const source = sourceOf(path, text);
    if (source.problems.length > 0) return { value: undefined, diagnostics: source.problems };
    const find = new Findings();
    const root = Cursor.root(source);
    checkCharacters(root, find);
    const issues = issuesOf(caseDocument, source.value);
    const named = issues.filter(({ path: at }) => at[0] !== '$schema' || root.has('$schema'));
    reportIssues(named, root, caseDocument, OWN.case, find);
    checkCaseContent(root, { ...shared, find });
    return { value: source.value, diagnostics: inDocumentOrder(find.found) };
  };
}

/** Where nothing is wrong nobody asks for a position, so they are worked out when somebody does. */
function sourceOf(path: string, text: string): Source {
  const value = plainJson(text);
  if (value === undefined) return parseSource(path, text);
  let parsed: Source | undefined;
  const full = (): Source => {
    parsed ??= parseSource(path, text);
    return parsed;
  };
  return {
    path,
    text,
    value,
    problems: [],
    locate: (pointer, part) => full().locate(pointer, part),
    locateWithin: (pointer, start, end, part) => full().locateWithin(pointer, start, end, part),
  };
}

/**
 * Checks a case that is not part of the library against the library's dictionary. `$schema` may be left out; what
 * is wrong with a value is an error here, although an evaluation would only set the value aside.
 */
export const checkCase = (library: Pick<Library, 'documents'>, path: string, text: string): Diagnostic[] => [
  ...caseReader(library)(path, text).diagnostics,
];
