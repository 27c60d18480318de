import { type Assessment, assess, compile, type Outcome, type Plan } from '@dwellset/core';
import { gatherWithRead } from '../build/gather.ts';
import { partsOf } from '../build/parts.ts';
import type { Library, LibrarySet } from '../library/shape.ts';
import { isPlan, planOf, vignettesOf } from '../vignettes/runVignettes.ts';
import { amend } from './amend.ts';
import { applyChoices } from './applyChoices.ts';

/** A vignette in which a locked rule does not say what it says as published. */
export interface LockedLoss {
  readonly set: string;
  readonly rule: string;
  readonly vignette: string;
  readonly what: 'outcome' | 'summary' | 'release';
  readonly published: string;
  readonly amended: string;
}

export interface LockedProof {
  /** Pairs of a vignette and a locked rule that were held against each other. */
  readonly compared: number;
  readonly lost: readonly LockedLoss[];
}

/**
 * Holds every vignette of a locked rule against the amended set: the rule keeps its outcome and its summary. A
 * choice moved to the cautious side may make it speak sooner, never later; so it is held against the published
 * rules with that choice, and these against the rules as published.
 */
export function proveLocked(library: Library, hospital: string, only?: string): LockedProof {
  const sets = [...library.sets.values()].filter(({ id }) => only === undefined || id === only);
  const proofs = sets.map((set) => proveSet(library, set, hospital));
  return {
    compared: proofs.reduce((sum, { compared }) => sum + compared, 0),
    lost: proofs.flatMap(({ lost }) => lost),
  };
}

function proveSet(library: Library, set: LibrarySet, hospital: string): LockedProof {
  const isLocked = (id: string) => set.rules.get(id)?.value.locked === true;
  const vignettes = vignettesOf(set).filter(({ rule }) => isLocked(rule));
  if (vignettes.length === 0) return { compared: 0, lost: [] };
  const published = planOf(library, set.id, {});
  const amended = planOf(library, set.id, { hospital });
  const chosen = isPlan(published) && isPlan(amended) ? withChoices(library, set, hospital) : undefined;
  if (!isPlan(published) || !isPlan(amended) || chosen === undefined) {
    const text = (plan: typeof published) => (isPlan(plan) ? 'runs' : plan.join('; '));
    const sides = { published: text(published), amended: text(amended) };
    return {
      compared: 0,
      lost: vignettes.map(({ rule, vignette }) => ({
        set: set.id,
        rule,
        vignette: vignette.id,
        what: 'release',
        ...sides,
      })),
    };
  }
  const lost = vignettes.flatMap(({ rule, vignette, case: patient }) => {
    const [base, reference, result] = [published, chosen, amended].map((plan) =>
      said(assess(plan, patient, { reasons: 'none', asks: false, optionFacts: false }), set, rule),
    );
    return differences(base!, reference!, result!).map((loss) => ({
      set: set.id,
      rule,
      vignette: vignette.id,
      ...loss,
    }));
  });
  return { compared: vignettes.length, lost };
}

/** The published rules with the hospital's choices and nothing else of its amendment. */
function withChoices(library: Library, set: LibrarySet, hospital: string): Plan | undefined {
  const parts = partsOf(library, set);
  const choices = (amend(library, hospital)?.choices ?? []).map((choice) => ({ ...choice, cited: [] }));
  const releases = gatherWithRead(applyChoices(parts, choices));
  return releases && compile(releases, { allow: ['draft', 'retired', 'withdrawn', 'out-of-period'] });
}

interface Said {
  readonly outcome: Outcome | 'missing';
  readonly summary: string;
}

function said({ ruleSets, advice }: Assessment, { ruleSet: { value } }: LibrarySet, rule: string): Said {
  const result = ruleSets.find(({ id }) => id === value.id)?.rules.find(({ id }) => id === rule);
  const spoken = advice.find((entry) => entry.set === value.id && entry.rule === rule);
  return { outcome: result?.outcome ?? 'missing', summary: spoken?.summary ?? 'nothing' };
}

/** How much a rule says, from silence to advice. */
const LOUDNESS: Readonly<Record<Said['outcome'], number>> = {
  missing: 0,
  'switched-off': 0,
  'not-in-scope': 1,
  'does-not-apply': 1,
  undetermined: 2,
  applies: 3,
};

function differences(
  base: Said,
  reference: Said,
  amended: Said,
): Pick<LockedLoss, 'what' | 'published' | 'amended'>[] {
  const quieter = LOUDNESS[reference.outcome] < LOUDNESS[base.outcome];
  const expected = quieter ? base : reference;
  if (amended.outcome !== expected.outcome) {
    return [{ what: 'outcome', published: expected.outcome, amended: amended.outcome }];
  }
  if (amended.summary !== expected.summary) {
    return [{ what: 'summary', published: expected.summary, amended: amended.summary }];
  }
  return [];
}
