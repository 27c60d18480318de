/** Three-valued truth as words: this evaluator shares no arithmetic with the core, on purpose. */
export type Truth = 'true' | 'false' | 'unknown';

export function all(parts: readonly Truth[]): Truth {
  if (parts.includes('false')) return 'false';
  return parts.includes('unknown') ? 'unknown' : 'true';
}

export function any(parts: readonly Truth[]): Truth {
  if (parts.includes('true')) return 'true';
  return parts.includes('unknown') ? 'unknown' : 'false';
}

export function not(part: Truth): Truth {
  if (part === 'unknown') return 'unknown';
  return part === 'true' ? 'false' : 'true';
}

/** True where every possible value makes it true, false where none does. */
export function overPossible(holds: readonly boolean[]): Truth {
  if (holds.every((held) => held)) return 'true';
  return holds.some((held) => held) ? 'unknown' : 'false';
}
