/// <reference types="node" />
import { CannotRun } from './cannotRun.ts';
import { analyse } from './commands/analyse.ts';
import { assess } from './commands/assess.ts';
import { burden } from './commands/burden.ts';
import { check } from './commands/check.ts';
import { compare } from './commands/compare.ts';
import { demo } from './commands/demo.ts';
import { facts } from './commands/facts.ts';
import { forecast } from './commands/forecast.ts';
import { handbook } from './commands/handbook.ts';
import { helpText } from './commands/help.ts';
import { mutate } from './commands/mutate.ts';
import { pin } from './commands/pin.ts';
import { release } from './commands/release.ts';
import { report } from './commands/report.ts';
import { scoreboard } from './commands/scoreboard.ts';
import { verify } from './commands/verify.ts';
import { vignettes } from './commands/vignettes.ts';
import { withdraw } from './commands/withdraw.ts';
import { readOptions } from './options.ts';
import { write } from './output.ts';

const COMMANDS = [
  assess,
  forecast,
  facts,
  handbook,
  vignettes,
  analyse,
  mutate,
  scoreboard,
  check,
  compare,
  burden,
  release,
  report,
  verify,
  withdraw,
  pin,
  demo,
];

/** Runs one command line and gives its exit code: 0 done, 1 could not run, 2 found errors or failures, 130 interrupted. */
export async function main(argv: readonly string[]): Promise<number> {
  try {
    const [name = 'help', ...rest] = argv;
    if (name === 'help' || name === '--help' || name === '-h') {
      await write(process.stdout, helpText(COMMANDS, rest));
      return 0;
    }
    const command = COMMANDS.find((known) => known.name === name);
    if (!command) throw new CannotRun(`there is no command \`${name}\`; \`dwellset help\` lists them`);
    if (rest.includes('--help') || rest.includes('-h')) {
      await write(process.stdout, helpText(COMMANDS, [name]));
      return 0;
    }
    const finished = await command.run(readOptions(name, rest, command.options, command.atMost));
    if (finished.text !== '') await write(process.stdout, finished.text);
    if (finished.aside) await write(process.stderr, finished.aside);
    return finished.code ?? (finished.failed ? 2 : 0);
  } catch (error) {
    // A stack trace helps nobody on a ward and may carry parts of a case.
    const message =
      error instanceof CannotRun
        ? error.message
        : `a fault in dwellset itself, please report it: ${(error as Error).name}`;
    await write(process.stderr, `dwellset: ${message}\n`);
    return 1;
  }
}
