import type { Page } from 'playwright-core';

interface TraceEvent {
  readonly name: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  /** Microseconds of the processor's time, so that another process takes none of it. */
  readonly tdur?: number;
  readonly args: { readonly name?: string };
}

/** The longest task of the page's own thread after its first paint while something is done, in ms of the processor's time. */
export async function longestTask(page: Page, act: () => Promise<unknown>): Promise<number> {
  const session = await page.context().newCDPSession(page);
  const events: TraceEvent[] = [];
  session.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as TraceEvent[])));
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { includedCategories: ['toplevel', 'loading'] },
  });
  await act();
  const complete = new Promise((resolve) => session.once('Tracing.tracingComplete', resolve));
  await session.send('Tracing.end');
  await complete;
  await session.detach();
  const key = ({ pid, tid }: TraceEvent): string => `${pid}/${tid}`;
  const mains = new Set(events.filter(({ args }) => args.name === 'CrRendererMain').map(key));
  const painted = events.find(({ name }) => name === 'firstPaint')?.ts ?? 0;
  const tasks = events.filter(
    (event) => event.name === 'ThreadControllerImpl::RunTask' && mains.has(key(event)) && event.ts > painted,
  );
  if (tasks.length === 0) throw new Error('the browser tells of no task');
  return Math.max(...tasks.map(({ tdur = 0 }) => tdur)) / 1000;
}
