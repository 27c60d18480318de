import { Engine } from 'json-rules-engine';
import { describe, expect, test, vi } from 'vitest';
import { boundsOf, type FactBounds } from '../../packages/crosscheck/src/bounds/factBounds.ts';
import { wordOf } from '../../packages/crosscheck/src/bounds/pair.ts';
import { groupEngine } from '../../packages/crosscheck/src/engine/groupEngine.ts';
import {
  type Translation,
  toJsonRulesEngine,
} from '../../packages/crosscheck/src/translate/toJsonRulesEngine.ts';
import { exactly, readings } from './support/readings.ts';
import { leaf, release, rule } from './support/releases.ts';

const much = { all: [{ fact: 'urine.scan', operator: 'greaterThan', value: 400 }] };
const load = () => {
  const translation = toJsonRulesEngine(
    release({ rules: [rule('one', { when: leaf('urine.scan', 'greaterThan', 400) })] }),
  );
  return { translation, engine: groupEngine(translation, translation.patient) };
};
const scan = (millilitres: number) =>
  new Map([['urine.scan', boundsOf(readings({ 'urine.scan': exactly(millilitres) }).get('urine.scan')!)]]);
const stripped = (translation: Translation, operators: Translation['operators']): Translation => ({
  ...translation,
  operators,
});

describe('priorities', () => {
  const either = (priority?: number) => ({
    any: [
      { fact: 'urine.scan', operator: 'greaterThan', value: 400, ...(priority ? { priority } : {}) },
      { fact: 'urine.scan', operator: 'greaterThan', value: 100 },
    ],
  });

  test('make the library skip leaves, so that its result tree has holes', async () => {
    const results = async (priority?: number) => {
      const engine = new Engine([{ conditions: either(priority), event: { type: 'held' } }]);
      const [result] = (await engine.run({ 'urine.scan': 500 })).results;
      return (result!.conditions as { any: { result?: boolean }[] }).any.map((node) => node.result);
    };
    expect(await results()).toEqual([true, true]);
    expect(await results(10)).toEqual([true, undefined]);
  });

  test('are never given by the translation, neither to leaves nor to rules', () => {
    expect(JSON.stringify(load().translation)).not.toContain('priority');
  });
});

describe('runs', () => {
  test('the library goes on with lower priorities after a run was rejected', async () => {
    const heard: string[] = [];
    const broken = {
      conditions: { all: [{ fact: 'no.such', operator: 'equal', value: 1 }] },
      event: { type: 'never' },
      priority: 9,
    };
    const engine = new Engine([broken, { conditions: much, event: { type: 'much' } }]);
    engine.on('much', () => void heard.push('much'));
    await expect(engine.run({ 'urine.scan': 500 })).rejects.toThrow('Undefined fact');
    await vi.waitFor(() => expect(heard).toEqual(['much']));
  });

  test('a run that is rejected gives no answer at all, and the next one starts clean', async () => {
    const { engine } = load();
    const wrong = new Map([['urine.scan', 500 as unknown as FactBounds]]);
    const [refused, answered] = await Promise.allSettled([engine.run(wrong), engine.run(scan(500))]);
    expect(refused.status).toBe('rejected');
    expect(String((refused as PromiseRejectedResult).reason)).toContain(
      '`certainly:greaterThan` reads bounds, not 500',
    );
    expect(answered.status === 'fulfilled' && answered.value.of('one', 'when')?.certain).toBe(true);
  });

  test('stop() in one run of the library ends another run of the same engine', async () => {
    const engine = new Engine([
      { conditions: much, event: { type: 'first' }, priority: 2 },
      { conditions: much, event: { type: 'second' }, priority: 1 },
    ]);
    let stopped = false;
    engine.on('first', () => {
      if (!stopped) engine.stop();
      stopped = true;
    });
    const runs = await Promise.all([engine.run({ 'urine.scan': 500 }), engine.run({ 'urine.scan': 600 })]);
    expect(runs.map(({ events }) => events.length)).not.toContain(2);
  });

  test('many patients at once all get the whole answer of their own', async () => {
    const { engine } = load();
    const volumes = Array.from({ length: 40 }, (_, index) => index * 20);
    const answered = await Promise.all(volumes.map((volume) => engine.run(scan(volume))));
    expect(answered.map((one) => wordOf(one.of('one', 'when')!))).toEqual(
      volumes.map((volume) => String(volume > 400)),
    );
  });

  test('the end of one run of the library can silence another that has just begun', async () => {
    const engine = new Engine([{ conditions: much, event: { type: 'much' } }]);
    const answered: number[] = [];
    for (let delay = 0; delay < 60; delay++) {
      const first = engine.run({ 'urine.scan': 500 });
      for (let turn = 0; turn < delay; turn++) await undefined;
      const second = await engine.run({ 'urine.scan': 500 });
      await first;
      answered.push(second.results.length + second.failureResults.length);
    }
    expect(answered).toContain(0);
  });

  test('an engine that stays silent about a rule is an error, not a no', async () => {
    const { engine } = load();
    const silent = { results: [], failureResults: [] } as unknown as Awaited<ReturnType<Engine['run']>>;
    const run = vi.spyOn(Engine.prototype, 'run').mockResolvedValueOnce(silent);
    await expect(engine.run(scan(500))).rejects.toThrow('did not answer for `invented/one/when/certainly`');
    run.mockRestore();
  });

  test('an operator that was not registered is an error, not a no', async () => {
    const { translation } = load();
    const without = translation.operators.filter(({ name }) => name !== 'possibly:greaterThan');
    const engine = groupEngine(stripped(translation, without), translation.patient);
    await expect(engine.run(scan(500))).rejects.toThrow('Unknown operator: possibly:greaterThan');
  });

  test('removing an operator of the library removes ours of the same name; the run is then rejected', async () => {
    const { translation } = load();
    const engine = new Engine();
    for (const { name, evaluate } of translation.operators) engine.addOperator(name, evaluate);
    engine.addRule({
      conditions: { all: [{ fact: 'urine.scan', operator: 'certainly:greaterThan', value: 400 }] },
      event: { type: 'much' },
    });
    const facts = Object.fromEntries(scan(500));
    expect((await engine.run(facts)).events).toHaveLength(1);
    engine.removeOperator('greaterThan');
    await expect(engine.run(facts)).rejects.toThrow('Unknown operator: certainly:greaterThan');
  });

  test('an engine that contradicts itself is an error', async () => {
    const { translation } = load();
    const liar = translation.operators.map((one) => ({
      ...one,
      evaluate: () => one.name.startsWith('certainly'),
    }));
    const answers = await groupEngine(stripped(translation, liar), translation.patient).run(scan(500));
    expect(() => answers.of('one', 'when')).toThrow('certain and impossible');
  });
});

describe('facts', () => {
  test('the library hands facts out by reference: a listener can change what a later rule reads', async () => {
    const signs = ['rigors'];
    const engine = new Engine([
      {
        conditions: { all: [{ fact: 'signs', operator: 'contains', value: 'rigors' }] },
        event: { type: 'seen' },
        priority: 2,
      },
      {
        conditions: { all: [{ fact: 'signs', operator: 'contains', value: 'dysuria' }] },
        event: { type: 'made-up' },
        priority: 1,
      },
    ]);
    engine.on(
      'seen',
      async (_params, almanac) => void (await almanac.factValue<string[]>('signs')).push('dysuria'),
    );
    expect((await engine.run({ signs })).events.map(({ type }) => type)).toEqual(['seen', 'made-up']);
  });

  test('the second engine gets frozen copies, in which nothing can be changed', () => {
    const codes = boundsOf(readings({}).get('catheter.material')!);
    const signs = boundsOf(readings({}).get('infection.signs')!);
    expect(() => (codes as unknown as { possible: string[] }).possible.push('made-up')).toThrow(TypeError);
    expect(() => (signs as unknown as { yes: string[] }).yes.push('made-up')).toThrow(TypeError);
    expect(() => Object.assign(codes, { recorded: 'true' })).toThrow(TypeError);
  });

  test('the library computes a dynamic fact once a run, so that a changing source is not seen', async () => {
    let reads = 0;
    const engine = new Engine([
      {
        conditions: { all: [{ fact: 'urine.scan', operator: 'greaterThan', value: 400 }] },
        event: { type: 'a' },
      },
      {
        conditions: { all: [{ fact: 'urine.scan', operator: 'greaterThan', value: 600 }] },
        event: { type: 'b' },
      },
    ]);
    engine.addFact('urine.scan', () => 500 * ++reads);
    expect((await engine.run()).events.map(({ type }) => type)).toEqual(['a']);
    expect(reads).toBe(1);
    expect((await engine.run()).events.map(({ type }) => type)).toEqual(['a', 'b']);
  });

  test('nothing of one patient is left in the engine for the next', async () => {
    const { engine } = load();
    expect((await engine.run(scan(500))).of('one', 'when')).toEqual({ certain: true, possible: true });
    await expect(engine.run(new Map())).rejects.toThrow('not handed over');
    expect((await engine.run(scan(50))).of('one', 'when')).toEqual({ certain: false, possible: false });
  });
});
