import type { CheckWord, Compliance, Reading, Rule, TruthWord } from '@dwellset/core';
import { FALSE, UNKNOWN } from '@dwellset/core';
import { fails, isOpen } from '../bounds/pair.ts';
import type { Answers } from '../engine/groupEngine.ts';
import type { Part } from '../translate/engineRule.ts';
import type { Standing } from './standing.ts';

/** The word of one check: what people see in a checklist instead of the outcome. */
export function checkWord(
  { rule, inScope, speaks, outcome }: Standing,
  answers: Answers,
  readings: ReadonlyMap<string, Reading>,
): CheckWord {
  if (outcome === 'switched-off') return 'switched-off';
  if (fails(inScope)) return 'not-applicable';
  if (fails(speaks)) return 'met';
  if (inScope.certain && speaks.certain) return 'not-met';
  const open = openBaseFacts(rule, answers, readings);
  return open.length > 0 && open.every((id) => readings.get(id)?.recorded === FALSE)
    ? 'not-recorded'
    : 'undetermined';
}

/** The facts that were supplied, or could be, behind every leaf that keeps the check open. */
function openBaseFacts(
  rule: Rule,
  answers: Answers,
  readings: ReadonlyMap<string, Reading>,
): readonly string[] {
  const ofRule = (part: 'scope' | 'expect') => openPart(answers, rule.id, part);
  const ofSet = (part: 'population' | 'gate') => openPart(answers, undefined, part);
  // Neither a hard stop nor a rule for everybody waits for the population.
  const population = rule.locked || rule.anyPopulation ? [] : ofSet('population');
  const base = (id: string): readonly string[] => {
    const reading = readings.get(id);
    // What is exactly known keeps nothing open, unless it follows from facts that nobody supplied.
    if (reading?.cause === undefined && reading?.recorded !== UNKNOWN) return [];
    return reading.cause === undefined ? [id] : (reading.inputs?.flatMap(base) ?? [id]);
  };
  return [...population, ...ofSet('gate'), ...ofRule('scope'), ...ofRule('expect')].flatMap(base);
}

function openPart(answers: Answers, rule: string | undefined, part: Part): readonly string[] {
  const pair = answers.of(rule, part);
  return pair && isOpen(pair) ? answers.open(rule, part) : [];
}

/**
 * All-or-none over the applicable checks, with the fewest and most that can turn out met, and applicable.
 * Nothing where no check can be applicable: none of none is not compliance.
 */
export function comply(standings: readonly Standing[]): Compliance | undefined {
  const counted = standings.filter(({ outcome }) => outcome !== 'switched-off' && outcome !== 'not-in-scope');
  if (counted.length === 0) return undefined;
  const met = counted.filter(({ speaks }) => fails(speaks)).length;
  const undecided = counted.filter(({ speaks }) => isOpen(speaks)).length;
  const sure = counted.filter(({ inScope, speaks }) => inScope.certain || fails(speaks)).length;
  const all: TruthWord = counted.some(({ outcome }) => outcome === 'applies')
    ? 'false'
    : met === counted.length
      ? 'true'
      : 'unknown';
  return { all, met: [met, met + undecided], of: [sure, counted.length] };
}
