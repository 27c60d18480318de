import { CannotRun, type Finished } from '../cannotRun.ts';
import type { Given } from '../options.ts';
import type { Reasons } from '../stream/assessBlock.ts';
import { assessStream, type StreamProgress } from '../stream/assessStream.ts';
import { rulesArgv } from '../stream/desk.ts';

const MOST_THREADS = 64;
const INTERRUPTED = 130;

/** `dwellset assess -`: cases from standard input, one a line, to lines on standard output. */
export async function assessLines(given: Given): Promise<Finished> {
  const refuse = (what: string): never => {
    throw new CannotRun(`${what}; see \`dwellset help assess\``);
  };
  if (given.arguments.length > 1) refuse('`-` reads cases from standard input and takes no files beside it');
  if ((given.one('as') ?? 'json') !== 'json') refuse('`-` writes JSON, one line a case');
  for (const option of ['to', 'cross-check'])
    if (given.has(option)) refuse(`\`--${option}\` does not go with \`-\``);
  const threads = threadsOf(given.one('threads')) ?? undefined;
  if (threads === false) return refuse(`\`--threads\` takes a whole number from 1 to ${MOST_THREADS}`);

  const cancel = new AbortController();
  const interrupt = (): void => cancel.abort();
  process.once('SIGINT', interrupt);
  const shown = given.has('progress') || process.stderr.isTTY ? progressLine() : undefined;
  try {
    const { ended, cases, bad } = await assessStream(process.stdin, process.stdout, {
      argv: rulesArgv(given),
      reasons: (given.one('reasons') ?? 'none') as Reasons,
      signal: cancel.signal,
      ...(threads === undefined ? {} : { threads }),
      ...(shown ? { progress: shown.show } : {}),
    });
    shown?.end();
    const unread =
      bad === 0 ? '' : `dwellset: ${bad} of ${cases + bad} lines hold no case that can be read\n`;
    if (ended === 'signal') {
      return {
        text: '',
        aside: `${unread}dwellset: stopped after ${cases + bad} lines\n`,
        code: INTERRUPTED,
      };
    }
    return { text: '', ...(unread === '' ? {} : { aside: unread }), failed: bad > 0 };
  } finally {
    process.off('SIGINT', interrupt);
  }
}

function threadsOf(text: string | undefined): number | undefined | false {
  if (text === undefined) return undefined;
  const threads = /^\d{1,2}$/.test(text) ? Number(text) : 0;
  return threads >= 1 && threads <= MOST_THREADS && threads;
}

const EVERY_MS = 500;

/** One line on standard error that is written over, at most twice a second. */
function progressLine() {
  const begun = performance.now();
  let last = Number.NEGATIVE_INFINITY;
  let latest: StreamProgress | undefined;
  const write = ({ cases, bad, bytes }: StreamProgress): void => {
    const seconds = (performance.now() - begun) / 1000;
    const refused = bad === 0 ? '' : `, ${bad} not read`;
    const rate = Math.round(cases / seconds);
    process.stderr.write(
      `\r${cases} cases${refused}, ${(bytes / 1e6).toFixed(1)} MB, ${rate} a second\u001b[K`,
    );
  };
  return {
    show(sofar: StreamProgress): void {
      latest = sofar;
      if (performance.now() - last < EVERY_MS) return;
      last = performance.now();
      write(sofar);
    },
    end(): void {
      if (!latest) return;
      write(latest);
      process.stderr.write('\n');
    },
  };
}
