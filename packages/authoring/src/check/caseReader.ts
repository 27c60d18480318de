import { type Diagnostic, inDocumentOrder } from '../diagnostic.ts';
import { caseDocument } from '../documents/case.ts';
import type { Library } from '../library/shape.ts';
import { readSource } from '../parse/readSource.ts';
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
    const source = readSource(path, text);
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

/**
 * Checks a case that is not part of the library against the library's dictionary. `$schema` may be left out; what
 * is wrong with a value is an error here, although an evaluation would only set the value aside.
 */
export const checkCase = (library: Pick<Library, 'documents'>, path: string, text: string): Diagnostic[] => [
  ...caseReader(library)(path, text).diagnostics,
];
