/** A change log with one line for a release, under the heading of its version; a line that stands there stays alone. */
export function withLogLine(log: string, version: string, line: string): string {
  if (log.includes(line)) return log;
  const heading = new RegExp(`^## ${version.replaceAll('.', '\\.')}( .*)?\\n\\n?`, 'm');
  if (heading.test(log)) return log.replace(heading, (found) => `${found}${line}\n`);
  const first = log.search(/^## /m);
  const section = `## ${version}\n\n${line}\n`;
  return first < 0
    ? `${log.trimEnd()}\n\n${section}`
    : `${log.slice(0, first)}${section}\n${log.slice(first)}`;
}
