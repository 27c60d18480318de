import { writeFileSync } from 'node:fs';
import { CannotRun, type Finished } from '../cannotRun.ts';

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'its folder does not exist',
  ENOTDIR: 'its folder does not exist',
  EISDIR: 'is a folder, not a file',
};

/**
 * A page for a file, or for standard output. The ending is asked for so that a slip of the keyboard cannot
 * overwrite a case or a rule document.
 */
export function toFile(file: string | undefined, page: () => string): Finished {
  if (file === undefined) return { text: page() };
  if (!file.endsWith('.html')) throw new CannotRun(`\`--to ${file}\` must end in \`.html\``);
  const text = page();
  try {
    writeFileSync(file, text);
  } catch (error) {
    const reason = REASONS[(error as NodeJS.ErrnoException).code ?? ''] ?? 'cannot be written';
    throw new CannotRun(`${file}: ${reason}`);
  }
  return { text: `${file}\n` };
}
