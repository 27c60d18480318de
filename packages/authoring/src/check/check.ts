import { type Diagnostic, inDocumentOrder } from '../diagnostic.ts';
import type { Library } from '../library/shape.ts';
import { checkAdoption } from './adoptions.ts';
import { checkAmendment } from './amendments.ts';
import { caseContext, checkCaseContent } from './cases.ts';
import { checkCharacters } from './characters.ts';
import { checkCodeLists } from './codeLists.ts';
import { checkSetCycles } from './conclusions.ts';
import { dictionaryContext } from './context.ts';
import { checkDerivationCycles } from './cycles.ts';
import { echoesOf } from './echoes.ts';
import { checkNotCarried, checkStatement, checkUnusedEvidence } from './evidence.ts';
import { checkFact } from './facts.ts';
import { Findings } from './findings.ts';
import { checkHazard, vignetteNames } from './hazards.ts';
import { checkPlace, checkReserved, checkUnique } from './ids.ts';
import { checkKeys } from './keys.ts';
import { checkParameter } from './parameters.ts';
import { checkRuleSet, checkStrays } from './ruleSets.ts';
import { checkStructure } from './structure.ts';
import { type Survey, survey } from './survey.ts';
import { checkTable } from './tables.ts';
import { checkWard } from './wards.ts';
import { checkWithdrawal } from './withdrawals.ts';

/**
 * Everything that is wrong with a library, in document order, in one pass. Never throws: a document that cannot be
 * read is reported, and what refers to it is judged by what can be.
 */
export function check(library: Pick<Library, 'documents'>): Diagnostic[] {
  const find = new Findings();
  const unreadable = library.documents.flatMap(({ source }) => source.problems);
  const readable = library.documents.filter(({ source }) => source.problems.length === 0);
  const surveyed = survey({ documents: readable });
  for (const { kind, stated, root } of surveyed.documents) {
    checkCharacters(root, find);
    checkStructure(root, kind, stated, find);
    if (kind !== undefined) checkPlace(root, kind, find);
  }
  checkReserved(surveyed, find);
  checkUnique(surveyed, find);
  checkDictionary(surveyed, find);
  for (const set of surveyed.sets.values()) checkRuleSet(set, surveyed, find);
  checkSetCycles(surveyed, find);
  checkStrays(surveyed, find);
  checkHospitals(surveyed, find);
  checkKeys(surveyed, find);
  const echoes = echoesOf(
    library.documents.filter(({ source }) => source.problems.length > 0),
    surveyed.documents,
    find,
  );
  return inDocumentOrder([...unreadable, ...find.found.filter(({ code }) => !echoes.has(code))]);
}

/** What all sets share: facts, choices, evidence, hazards. */
function checkDictionary(surveyed: Survey, find: Findings): void {
  const context = dictionaryContext(surveyed, find);
  for (const root of surveyed.ofKind('codes')) checkCodeLists(root, find);
  for (const fact of surveyed.facts.values()) checkFact(fact, context);
  checkDerivationCycles(context, surveyed.facts.keys());
  for (const parameter of surveyed.parameters.values()) checkParameter(parameter, context);
  for (const table of surveyed.tables.values()) checkTable(table, context);
  const statements = surveyed.ofKind('evidence').flatMap((root) => root.at('evidence').items);
  for (const entry of statements) checkStatement(entry, context, surveyed.sources);
  checkUnusedEvidence(statements, surveyed, context);
  for (const root of surveyed.ofKind('not-carried')) checkNotCarried(root, context);
  const vignettes = vignetteNames(surveyed);
  for (const root of surveyed.ofKind('hazards')) {
    for (const entry of root.at('hazards').items) checkHazard(entry, vignettes, context);
  }
}

function checkHospitals(surveyed: Survey, find: Findings): void {
  const context = dictionaryContext(surveyed, find);
  for (const root of surveyed.ofKind('withdrawal')) checkWithdrawal(root, context);
  for (const root of surveyed.ofKind('amendment')) checkAmendment(root, context);
  for (const root of surveyed.ofKind('adoption')) checkAdoption(root, context);
  for (const root of surveyed.ofKind('case')) checkCaseContent(root, caseContext(surveyed, find));
  for (const root of surveyed.ofKind('ward')) checkWard(root, caseContext(surveyed, find));
}
