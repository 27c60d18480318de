import { type Diagnostic, inDocumentOrder } from '../diagnostic.ts';
import { caseDocument } from '../documents/case.ts';
import type { Library } from '../library/shape.ts';
import { parseSource } from '../parse/source.ts';
import { checkFactValues } from './caseValues.ts';
import { checkCharacters } from './characters.ts';
import { checkChosen } from './chosen.ts';
import { type Context, dictionaryContext } from './context.ts';
import { Cursor } from './cursor.ts';
import { Findings } from './findings.ts';
import { issuesOf, reportIssues } from './issues.ts';
import { checkMoments } from './moments.ts';
import { optionFacts } from './references.ts';
import { OWN } from './structure.ts';
import { type Survey, stockOf, survey } from './survey.ts';
import { checkSearched } from './vignettes.ts';

/**
 * Checks a case that is not part of the library against the library's dictionary. `$schema` may be left out; what
 * is wrong with a value is an error here, although an evaluation would only set the value aside.
 */
export function checkCase(library: Pick<Library, 'documents'>, path: string, text: string): Diagnostic[] {
  const source = parseSource(path, text);
  if (source.problems.length > 0) return [...source.problems];
  const find = new Findings();
  const root = Cursor.root(source);
  checkCharacters(root, find);
  const issues = issuesOf(caseDocument, source.value);
  const named = issues.filter(({ path }) => path[0] !== '$schema' || root.has('$schema'));
  reportIssues(named, root, caseDocument, OWN.case, find);
  checkCaseContent(root, caseContext(survey(library), find));
  return inDocumentOrder(find.found);
}

/** A case may give values for the dictionary and for what any set derives. */
export function caseContext(surveyed: Survey, find: Findings): Context {
  const derived = [...surveyed.sets.values()].flatMap((set) => [...set.derived]);
  const facts = new Map([...derived, ...surveyed.facts]);
  return { ...dictionaryContext(surveyed, find), owner: 'the case', facts, ofOptions: optionFacts(facts) };
}

export function checkCaseContent(root: Cursor, context: Context): void {
  const stock = new Map([...context.survey.sets.values()].flatMap((set) => [...stockOf(set)]));
  checkMoments(root, context);
  checkSearched(root.at('searched'), context);
  checkFactValues(root.at('facts'), context);
  checkChosen(root.at('chosen'), stock, context);
}
