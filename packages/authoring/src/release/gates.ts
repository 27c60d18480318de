import type { Release } from '@dwellset/core';
import type { SetComparison } from '../compare/shape.ts';
import type { Library } from '../library/shape.ts';

/** What a gate looks at before a set is released. */
export interface GateContext {
  readonly library: Library;
  readonly release: Release;
  /** Beside the newest earlier release, where there is one. */
  readonly comparison?: SetComparison;
}

/** One condition of a release. What it finds is data: a code, a place, an id or a figure, and no sentence. */
export interface Gate {
  readonly id: string;
  /** Nothing found: passed. */
  readonly run: (context: GateContext) => readonly string[] | Promise<readonly string[]>;
}

export interface GateResult {
  readonly gate: string;
  readonly outcome: 'passed' | 'refused' | 'accepted';
  readonly findings: readonly string[];
  /** Why it may be released in spite of the findings. */
  readonly reason?: string;
}

/**
 * Runs every gate, whatever the others find. A reason is taken only for a gate that refuses. A gate that breaks off
 * has not passed.
 */
export async function runGates(
  gates: readonly Gate[],
  context: GateContext,
  accepted: ReadonlyMap<string, string>,
): Promise<GateResult[]> {
  const results: GateResult[] = [];
  for (const gate of gates) {
    const findings = await findingsOf(gate, context);
    const reason = accepted.get(gate.id);
    if (findings.length === 0) results.push({ gate: gate.id, outcome: 'passed', findings });
    else if (reason === undefined) results.push({ gate: gate.id, outcome: 'refused', findings });
    else results.push({ gate: gate.id, outcome: 'accepted', findings, reason });
  }
  return results;
}

async function findingsOf({ run }: Gate, context: GateContext): Promise<readonly string[]> {
  try {
    return await run(context);
  } catch (error) {
    const { name, message } = error as Error;
    return [`${name}: ${message}`];
  }
}
