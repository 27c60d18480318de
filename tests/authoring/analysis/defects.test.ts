import { check, type Library, releasesFor } from '@dwellset/authoring';
import { analyseSet, type Finding } from '@dwellset/authoring/analysis';
import { type Assessment, assess, compile, type RuleSetResult } from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { DEFECTS } from './defects.ts';
import { invented } from './invented.ts';

/** What the core says of a witness, run by itself. */
function assessed(library: Library, { witness }: Finding): Assessment & { readonly set: RuleSetResult } {
  const plan = compile(releasesFor(library, 'care'), { allow: ['draft'] });
  const assessment = assess(plan, witness!.case, { reasons: 'none' });
  return { ...assessment, set: assessment.ruleSets[0]! };
}

/** Whether a witness shows what its finding says, as the core alone judges it. */
function isShown(library: Library, finding: Finding): boolean {
  const { set, advice } = assessed(library, finding);
  const applies = (id: string): boolean =>
    set.rules.some((rule) => rule.id === id && rule.outcome === 'applies');
  switch (finding.kind) {
    case 'contradictory-advice':
      return finding.of.every((id) => advice.some(({ rule }) => rule === id));
    case 'lock-folded':
      return finding.of.every(applies) && advice.every(({ rule }) => rule !== finding.of[0]);
    case 'checks-contradict':
      return (
        set.compliance?.all !== 'true' && finding.of.every((id) => set.rules.some((rule) => rule.id === id))
      );
    case 'gap':
      return set.conclusion?.id === undefined && set.conclusion?.settled === true;
    case 'gap-between':
      return (
        set.conclusion?.id === 'none' && finding.beside?.every(({ says }) => says[0]?.is !== 'none') === true
      );
    case 'nothing-left':
      return set.choices?.[0]?.nothingLeft !== undefined;
    case 'preference-contradicted':
      return finding.of.every(applies);
    default:
      return applies(finding.of[0]!);
  }
}

const WITNESSED: readonly string[] = [
  'always-applies',
  'gap-between',
  'redundant',
  'never-stands',
  'always-folded',
  'lock-folded',
  'contradictory-advice',
  'checks-contradict',
  'preference-contradicted',
  'gap',
  'nothing-left',
];

describe('a planted defect is found, and nothing else', () => {
  it.each(DEFECTS)('$kind: $what', ({ kind, of, possible, ...set }) => {
    const library = invented(set);
    const { findings, refused } = analyseSet(library, 'care');
    expect(refused).toBeUndefined();
    expect(findings.map((finding) => [finding.kind, finding.of])).toEqual([[kind, of]]);
    const [finding] = findings as [Finding];
    expect(finding.certainty).toBe(possible ? 'possible' : 'certain');
    expect(finding.locked).toBe(of.some((id) => set.rules[id]?.locked === true));
    expect(finding.witness !== undefined).toBe(WITNESSED.includes(kind));
    if (finding.witness) expect(isShown(library, finding)).toBe(true);
  });

  it('in sets that the check lets through, a decision without a default aside', () => {
    const expected = ['locked-without-hazard', 'decision-shape'];
    const refused = DEFECTS.flatMap(({ what, ...set }) =>
      check(invented(set))
        .filter(({ severity, code }) => severity === 'error' && !expected.includes(code))
        .map(({ code, message }) => [what, code, message]),
    );
    expect(refused).toEqual([]);
  });
});
