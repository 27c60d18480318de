import { wrap } from '@dwellset/wording';
import { CannotRun } from '../cannotRun.ts';
import { type Command, columns } from '../command.ts';

function overview(commands: readonly Command[]): string {
  const widest = Math.max(...commands.map(({ name }) => name.length));
  const lines = commands.flatMap(({ name, summary }) =>
    wrap(summary, columns(), `  ${name.padEnd(widest)}  `),
  );
  return `dwellset COMMAND [ARGUMENTS] [OPTIONS]

${lines.join('\n')}

\`dwellset help COMMAND\` says more about one of them.
Exit codes: 0 done, 1 could not run, 2 found errors or failures.
`;
}

/** Options are never broken in the middle. */
function usageLines({ name, usage }: Command): string[] {
  const start = `dwellset ${name}`;
  const lines = [start];
  for (const part of usage) {
    const line = `${lines.at(-1)} ${part}`;
    if (line.length <= columns()) lines[lines.length - 1] = line;
    else lines.push(`${' '.repeat(start.length)} ${part}`);
  }
  return lines;
}

/** The list of commands, or the help of one. */
export function helpText(commands: readonly Command[], argv: readonly string[]): string {
  const [name] = argv;
  if (name === undefined) return overview(commands);
  const command = commands.find((known) => known.name === name);
  if (!command) throw new CannotRun(`there is no command \`${name}\`; \`dwellset help\` lists them`);
  const { summary, details } = command;
  const sentences = [`${summary.charAt(0).toUpperCase()}${summary.slice(1)}.`, ...details];
  const said = sentences.flatMap((sentence) => wrap(sentence, columns(), '', '  '));
  return `${[...usageLines(command), '', ...said].join('\n')}\n`;
}
