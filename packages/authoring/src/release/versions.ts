import { BUMPS, type Bump } from '../compare/shape.ts';

const numbers = (version: string): readonly number[] => version.split('.').map(Number);

export const compareVersions = (a: string, b: string): number => {
  const [one, other] = [numbers(a), numbers(b)];
  const at = [0, 1, 2].find((index) => one[index] !== other[index]);
  return at === undefined ? 0 : (one[at] ?? 0) - (other[at] ?? 0);
};

/** The least version that a change allows. Before 1.0.0 a major change moves the second number. */
export function nextVersion(version: string, bump: Bump): string {
  const [major = 0, minor = 0, patch = 0] = numbers(version);
  const step = BUMPS.indexOf(bump);
  if (step < 2) return `${major}.${minor}.${patch + 1}`;
  return step === 3 && major > 0 ? `${major + 1}.0.0` : `${major}.${minor + 1}.0`;
}
