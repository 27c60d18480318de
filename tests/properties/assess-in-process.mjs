// Reads releases and cases from standard input and writes one assessment a line, as the built core makes them.
import { text } from 'node:stream/consumers';

const { core, releases, cases } = JSON.parse(await text(process.stdin));
const { assess, compile } = await import(core);
const plan = compile(releases, { allow: ['draft'] });
for (const patient of cases)
  process.stdout.write(`${JSON.stringify(assess(plan, patient, { reasons: 'all' }))}\n`);
