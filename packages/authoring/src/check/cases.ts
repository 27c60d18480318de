import { checkFactValues } from './caseValues.ts';
import { checkChosen } from './chosen.ts';
import { type Context, dictionaryContext } from './context.ts';
import type { Cursor } from './cursor.ts';
import type { Findings } from './findings.ts';
import { checkMoments } from './moments.ts';
import { optionFacts } from './references.ts';
import { type Survey, stockOf } from './survey.ts';
import { checkSearched } from './vignettes.ts';

/** A case may give values for the dictionary and for what any set derives. */
export function caseContext(surveyed: Survey, find: Findings): Context {
  const derived = [...surveyed.sets.values()].flatMap((set) => [...set.derived]);
  const facts = new Map([...derived, ...surveyed.facts]);
  return { ...dictionaryContext(surveyed, find), owner: 'the case', facts, ofOptions: optionFacts(facts) };
}

export function checkCaseContent(root: Cursor, context: Context): void {
  checkMoments(root, context);
  checkSearched(root.at('searched'), context);
  checkFactValues(root.at('facts'), context);
  if (!root.has('chosen')) return;
  const stock = new Map([...context.survey.sets.values()].flatMap((set) => [...stockOf(set)]));
  checkChosen(root.at('chosen'), stock, context);
}
