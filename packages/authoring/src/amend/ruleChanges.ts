import { INDICATORS, type Rule, type StockItem } from '@dwellset/core';
import { stockItems } from '../build/parts.ts';
import type { Change } from '../documents/amendment.ts';
import type { Workpiece } from './workpiece.ts';

type Of<K extends string> = Extract<Change, Record<K, unknown>>;

export function switchOff(work: Workpiece, { switchOff: id, reason }: Of<'switchOff'>, at: string): void {
  const rule = work.unlocked(id, 'switchOff', at, 'switched off');
  if (rule === undefined) return;
  work.put({ ...rule, local: { change: 'switched-off', reason } });
  work.recorded.push({ item: id, change: 'switched-off', from: textOf(rule), reason });
}

export function replace(work: Workpiece, { replace, reason }: Of<'replace'>, at: string): void {
  const rule = work.unlocked(replace.id, 'replace', at, 'replaced');
  if (rule === undefined || !work.claimsNoLock(replace, `${at}/replace`)) return;
  work.put({ ...replace, local: { change: 'replaced', reason } });
  work.recorded.push({
    item: rule.id,
    change: 'replaced',
    from: textOf(rule),
    to: textOf(replace),
    reason,
  });
}

export function reword(work: Workpiece, { reword, reason }: Of<'reword'>, at: string): void {
  const rule = work.unlocked(reword.rule, 'reword', at, 'reworded');
  if (rule === undefined) return;
  const { title, because, summary, detail } = reword;
  const advised = summary !== undefined || detail !== undefined;
  const advice = advised ? work.adviceOf(rule, at) : rule.advice;
  if (advised && advice === undefined) return;
  work.put({
    ...rule,
    ...(title !== undefined && { title }),
    ...(because !== undefined && { because }),
    ...(advice && {
      advice: {
        ...advice,
        ...(summary !== undefined && { summary }),
        ...(detail !== undefined && { detail }),
      },
    }),
    local: { change: 'reworded', reason },
  });
  const record = (part: string, from: string | undefined, to: string | undefined) => {
    if (to === undefined) return;
    const item = `${rule.id}/${part}`;
    work.recorded.push({ item, change: 'reworded', ...(from !== undefined && { from }), to, reason });
  };
  record('title', rule.title, title);
  record('summary', rule.advice?.summary, summary);
  record('detail', lines(rule.advice?.detail).join('\n'), detail && lines(detail).join('\n'));
  record('because', rule.because, because);
}

export function add(work: Workpiece, { add, after, reason }: Of<'add'>, at: string): void {
  if (work.rules.some(({ id }) => id === add.id)) {
    const message = `there is already a rule \`${add.id}\`, so it cannot be added`;
    work.refusals.add(`${at}/add/id`, 'shadowed-id', message);
    return;
  }
  const before = after === undefined ? work.rules.length - 1 : work.rules.findIndex(({ id }) => id === after);
  if (after !== undefined && before < 0) {
    const message = `\`${add.id}\` is to stand after \`${after}\`, which is no rule of this set`;
    work.refusals.add(`${at}/after`, 'unknown-rule', message);
    return;
  }
  if (!work.claimsNoLock(add, `${at}/add`)) return;
  work.rules.splice(before + 1, 0, { ...add, local: { change: 'added', reason } });
  work.done.push({ kind: 'add', rule: add.id, pointer: at });
  work.recorded.push({ item: add.id, change: 'added', to: textOf(add), reason });
}

export function addText(work: Workpiece, { addText, reason }: Of<'addText'>, at: string): void {
  const rule = work.changeable(addText.rule, 'addText', at);
  const advice = rule && work.adviceOf(rule, at);
  if (rule === undefined || advice === undefined) return;
  work.put({ ...rule, advice: { ...advice, detail: [...lines(advice.detail), ...addText.detail] } });
  work.recorded.push({ item: rule.id, change: 'text-added', to: addText.detail.join('\n'), reason });
}

export function raise(work: Workpiece, { raise, reason }: Of<'raise'>, at: string): void {
  const rule = work.changeable(raise.rule, 'raise', at);
  const advice = rule && work.adviceOf(rule, at);
  if (rule === undefined || advice === undefined) return;
  if (INDICATORS.indexOf(raise.indicator) <= INDICATORS.indexOf(advice.indicator)) {
    const message = `\`${rule.id}\` is \`${advice.indicator}\`, and raising cannot make it \`${raise.indicator}\``;
    work.refusals.add(`${at}/raise/indicator`, 'not-raised', message);
    return;
  }
  work.put({ ...rule, advice: { ...advice, indicator: raise.indicator } });
  work.recorded.push({
    item: rule.id,
    change: 'raised',
    from: advice.indicator,
    to: raise.indicator,
    reason,
  });
}

export function restock(work: Workpiece, { stock, reason }: Of<'stock'>, at: string): void {
  const items = work.stock[stock.of];
  if (items === undefined) {
    work.refusals.add(`${at}/stock/of`, 'unknown-stock', `this set keeps no stock list \`${stock.of}\``);
    return;
  }
  stock.options.forEach(({ id, facts }, index) => {
    for (const fact of Object.keys(facts)) {
      if (work.base.facts.get(fact)?.from === undefined) continue;
      const message = `\`${fact}\` of \`${id}\` follows from other facts, so a local stock list may not state it`;
      work.refusals.add(`${at}/stock/options/${index}/facts/${fact}`, 'derived-in-stock', message);
    }
  });
  const names = (list: readonly StockItem[]) => list.map(({ id }) => id).join(', ');
  work.stock[stock.of] = stockItems(stock);
  work.recorded.push({
    item: stock.of,
    change: 'stock',
    from: names(items),
    to: names(stock.options),
    reason,
  });
}

const textOf = (rule: Pick<Rule, 'title' | 'advice'>): string => rule.advice?.summary ?? rule.title;

const lines = (detail: string | readonly string[] | undefined): readonly string[] =>
  typeof detail === 'string' ? [detail] : (detail ?? []);
