/// <reference types="node" />
import { readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import { offline } from '../../playground/build/offline.ts';

/**
 * Puts a newer build in the place of a built bench, as a release does: every file has another name, some text of the
 * rules is another, and the files of the older build are gone.
 */
export function deployNewer(folder: string, before: string, after: string): void {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
    (file) => extname(file) !== '',
  );
  const renamed = files.filter((file) => /-[\w-]{8}\.\w+$/.test(file));
  const nameNow = (name: string): string => name.replace(/(-[\w-]{8})(\.\w+)$/, '$1.newer$2');
  for (const file of files.filter((one) => /\.(html|js|css|json)$/.test(one))) {
    const text = readFileSync(join(folder, file), 'utf8');
    const other = renamed
      .map((one) => basename(one))
      .reduce((sofar, name) => sofar.replaceAll(name, nameNow(name)), text)
      .replaceAll(before, after);
    if (other !== text) writeFileSync(join(folder, file), other);
  }
  for (const file of renamed) renameSync(join(folder, file), join(folder, nameNow(file)));
  const { writeBundle } = offline() as unknown as { writeBundle(options: { dir: string }): void };
  writeBundle({ dir: folder });
}
