import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, patientsChanged, savedBy, startBench } from './bench.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await startBench();
});
afterAll(async () => {
  await bench?.close();
});

const INTERVAL = { name: 'Longest time without a review of need' } as const;

test('an author sets the review interval to 12 hours and reads how many patients that changes in three actions', async () => {
  const page = await bench.page('', await bench.context());
  await page.getByRole('link', { name: 'Local choices', exact: true }).click();
  await page.getByRole('spinbutton', INTERVAL).fill('12');
  const line = page.locator('.changes-line strong').first();
  await line.filter({ hasText: /^\d+ patients? chang/ }).waitFor();
  expect(await patientsChanged(page)).toBeGreaterThan(0);
  expect(await page.getByText('This is on the cautious side of the published value.').count()).toBe(1);
});

test('the count is what the evaluator finds: taking the change back re-inks every mark as published', async () => {
  const page = await bench.page('#/set/removal/choices', await bench.context());
  await page.getByRole('spinbutton', INTERVAL).fill('12');
  const changed = await patientsChanged(page);
  await page.getByRole('link', { name: 'Ledger', exact: true }).click();
  await page.getByLabel('Show').selectOption('changed');
  // Lines are drawn a few with every frame.
  await expect.poll(() => page.locator('tr.changed').count()).toBe(changed);
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByText('every mark is as published').waitFor();
  expect(await page.locator('td.inked').count()).toBe(0);
});

test('an author reads why a changed patient ends as it does, as published and here', async () => {
  const page = await bench.page('#/set/removal/choices', await bench.context());
  await page.getByRole('spinbutton', INTERVAL).fill('12');
  await page.locator('td.inked').first().click();
  const reasons = page.getByRole('region', { name: /^For the patient/ });
  await reasons.getByText('as published').first().waitFor();
  expect(await reasons.textContent()).toContain('local choice: longest time without a review of need');
});

test('a misspelt fact is marked where it stands and mended by the name that was meant', async () => {
  const page = await bench.page('#/set/removal/rule/review-due', await bench.context());
  const text = page.getByRole('textbox', { name: 'Text', exact: true });
  const before = await text.inputValue();
  await text.fill(before.replace('"catheter.stage"', '"catheter.stgae"'));
  const fix = page.getByRole('button', { name: 'Put "catheter.stage" instead' });
  await fix.first().waitFor();
  await page
    .getByRole('button', { name: /^line 5, column/ })
    .first()
    .click();
  const marked = await page.evaluate<string>(
    '(() => { const at = document.querySelector("textarea.json"); return at.value.slice(at.selectionStart, at.selectionEnd); })()',
  );
  expect(marked).toBe('"catheter.stgae"');
  await fix.first().click();
  await expect.poll(() => text.inputValue(), { timeout: 30_000 }).toBe(before);
});

test('outline and text stay in step, and a replaced rule is tried on every patient at once', async () => {
  const page = await bench.page('#/set/removal/rule/blocked', await bench.context());
  const text = page.getByRole('textbox', { name: 'Text', exact: true });
  await page.getByLabel('Title', { exact: false }).last().fill('Blocked, look first');
  await expect.poll(() => text.inputValue(), { timeout: 30_000 }).toContain('"title": "Blocked, look first"');
  const value = await text.inputValue();
  await text.fill(value.replace('Blocked, look first', 'Blocked: look'));
  await page.getByRole('heading', { level: 1, name: 'Blocked: look' }).waitFor();
});

test('a rule is replaced with a reason; reloading loses nothing, and the file holds it all', async () => {
  const context = await bench.context();
  const page = await bench.page('#/set/removal/rule/scan-now', context);
  const text = page.getByRole('textbox', { name: 'Text', exact: true });
  const before = await text.inputValue();
  await text.fill(
    before.replace(
      /"when": \{ "condition": "[^"]+" \}/,
      '"when": { "fact": "voiding.since-removal", "operator": "equal", "value": false }',
    ),
  );
  expect(await text.inputValue()).not.toBe(before);
  await page.getByLabel(/^Why we change this rule/).fill('Our scanner is on every ward.');
  await page.getByText('kept in this browser').waitFor();
  await page.reload();
  await expect
    .poll(() => page.getByLabel(/^Why we change this rule/).inputValue())
    .toBe('Our scanner is on every ward.');
  await page.getByRole('link', { name: /^Our changes/ }).click();
  await page.getByLabel('Organisation').fill('Invented Hospital');
  await page.getByLabel('Role that approves').fill('Lead nurse');
  await page.getByLabel('Date').fill('2026-11-25');
  const file = await savedBy(page, 'Save the amendment as a file');
  const amendment = JSON.parse(file);
  expect(amendment.amends[0].changes[0].replace.id).toBe('scan-now');
  expect(amendment.amends[0].changes[0].reason).toBe('Our scanner is on every ward.');

  const other = await bench.page('#/changes', await bench.context());
  await other.getByLabel(/An amendment or a file of patients/).setInputFiles({
    name: 'amendment.json',
    mimeType: 'application/json',
    buffer: Buffer.from(file),
  });
  await other.getByRole('heading', { name: '1 change' }).waitFor();
  expect(await savedBy(other, 'Save the amendment as a file')).toBe(file);
});

test('every question that waits for an answer leads to its field, in a group that was folded too', async () => {
  const page = await bench.page(
    '#/set/removal/patient?for=review-due/review-25-hours-ago',
    await bench.context(),
  );
  const questions = page.locator('.questions a');
  await questions.first().waitFor();
  for (const question of await questions.all()) {
    const fact = (await question.getAttribute('href'))!.slice('#q-'.length);
    await question.click();
    await page.locator(`.fact:has([id="q-${fact}"]) :focus`).waitFor();
  }
});

test('time moves on by keyboard: every moment that brings something is drawn, and the page shows it', async () => {
  const page = await bench.page(
    '#/set/removal/patient?for=review-due/review-25-hours-ago',
    await bench.context(),
  );
  const moments = page.locator('.due .moment');
  await moments.first().waitFor();
  const drawn = page.locator('.due-chart .begins .ct-bar');
  await drawn.first().waitFor({ state: 'attached' });
  expect(await drawn.count()).toBe(await moments.count());
  const isAt = () => page.locator('.due-chart .now').getAttribute('x1').then(Number);
  const [stroke, before] = [Number(await drawn.first().getAttribute('x1')), await isAt()];
  expect(stroke).toBeGreaterThan(before);
  await page.getByRole('slider', { name: 'Moment' }).focus();
  await page.keyboard.press('ArrowRight');
  const first = (await moments.first().textContent()) ?? '';
  await page.getByText(`Shown as of ${first}`).waitFor();
  expect(await isAt()).toBeCloseTo(stroke, 6);
  await page.getByRole('button', { name: 'Back to now' }).click();
  await page.getByText(`Shown as of ${first}`).waitFor({ state: 'detached' });
  expect(await isAt()).toBeCloseTo(before, 6);
});

test('both invented hospitals open without a mistake and come out as they went in', async () => {
  const page = await bench.page('#/changes', await bench.context());
  for (const hospital of ['Harrowmere', 'Saltby Cross']) {
    await page.getByRole('button', { name: new RegExp(`Open the example of ${hospital}`) }).click();
    await page.getByText(new RegExp(`^Opened: ${hospital}`)).waitFor();
    expect(await page.getByRole('heading', { name: 'What stands against it' }).count()).toBe(0);
    expect(await patientsChanged(page)).toBeGreaterThan(0);
  }
});

test('a locked rule can be read, and says why it cannot be switched off', async () => {
  const page = await bench.page('#/set/removal/rule/dysreflexia-blocked', await bench.context());
  await page.getByText('no hospital may switch it off').first().waitFor();
  expect(await page.getByRole('button', { name: 'Switch this rule off here' }).count()).toBe(0);
  expect(
    await page.getByRole('textbox', { name: 'Text', exact: true }).getAttribute('readonly'),
  ).not.toBeNull();
});

test('a value that no source stands for asks for the local policy before it is handed on', async () => {
  const page = await bench.page('#/set/removal/choices', await bench.context());
  await page.getByRole('spinbutton', INTERVAL).fill('12');
  await page.getByLabel('Policy').fill('Catheter policy');
  await page.getByRole('link', { name: /^Our changes/ }).click();
  await page.getByText(/the local policy behind/).waitFor();
  await page.getByRole('button', { name: 'Save the unfinished amendment as a file' }).waitFor();
});

test('the page for the committee prints reasons, changed patients and cautions on A4', async () => {
  const page = await bench.page('#/set/removal/choices', await bench.context());
  await page.getByRole('spinbutton', INTERVAL).fill('12');
  await page.getByLabel(/^Why we choose this/).fill('Twelve-hour shifts.');
  await page.getByRole('link', { name: 'For the committee' }).click();
  await page.getByText('Twelve-hour shifts.').waitFor();
  await page.emulateMedia({ media: 'print' });
  await page
    .getByText(/patients? chang/)
    .first()
    .waitFor();
  expect(await page.getByText('Not for emergencies.').last().isVisible()).toBe(true);
  expect(await page.getByRole('navigation').isVisible()).toBe(false);
  expect((await page.pdf({ preferCSSPageSize: true })).subarray(0, 4).toString()).toBe('%PDF');
});

test('doses are charted row by row with the keyboard alone, and what nobody knows stays an answer of its own', async () => {
  const page = await bench.page('#/set/catheter-choice/patient', await bench.context());
  const key = (name: string) => page.keyboard.press(name);
  const focused = () =>
    page.evaluate<string>(`(() => {
      const { activeElement: at } = document;
      const names = (at.getAttribute('aria-labelledby') ?? '').split(' ').map((id) => document.getElementById(id)?.textContent);
      return [at.closest('fieldset')?.querySelector('legend')?.textContent, at.ariaLabel ?? names.join(' ')].join(': ');
    })()`);
  const doses = async () =>
    JSON.parse(await page.getByRole('textbox', { name: 'The case as JSON' }).inputValue()).facts['gel.doses'];
  await page.getByText('As a file', { exact: true }).click();
  await page.locator('.group > summary', { hasText: /gel/i }).first().click();
  const list = page.locator('.fact', { hasText: 'Which doses of lidocaine' });
  await list.getByRole('combobox').selectOption('there is none');
  expect(await doses()).toEqual([]);
  await list.getByRole('combobox').selectOption('not supplied');
  expect(await doses()).toBeUndefined();

  await list.getByRole('button', { name: /^Add an entry/ }).focus();
  await key('Enter');
  expect(await focused()).toBe('Entry 1 of doses of lidocaine: Time of the dose');
  const first = list.getByRole('group', { name: /^Entry 1/ });
  await first
    .getByLabel('Way it was given', { exact: true })
    .selectOption('asked, and the answer is not known');
  await first.getByLabel('Volume', { exact: true }).fill('5.5');
  await first
    .getByLabel('Amount of lidocaine: if there is no value')
    .selectOption('looked for, nothing recorded');
  await list.getByRole('button', { name: /^Add an entry/ }).focus();
  await key('Enter');
  expect(await focused()).toBe('Entry 2 of doses of lidocaine: Time of the dose');
  const second = list.getByRole('group', { name: /^Entry 2/ });
  await second.getByLabel('Volume', { exact: true }).fill('11');
  await list.getByLabel('there may be others').check();
  const charted = await doses();
  expect(charted).toEqual({
    items: [
      { way: { absent: 'asked-unknown' }, volume: { value: 5.5, unit: 'mL' }, lidocaine: null },
      { volume: { value: 11, unit: 'mL' } },
    ],
    complete: false,
  });

  await first.getByRole('button', { name: 'Remove entry 1' }).focus();
  await key('Enter');
  expect(await focused()).toBe('Entry 1 of doses of lidocaine: Remove entry 1');
  expect(await list.getByRole('status').textContent()).toBe('Entry 1 removed, 1 entry left.');
  expect(await list.getByLabel('Volume', { exact: true }).inputValue()).toBe('11');
  expect(await doses()).toEqual({ items: charted.items.slice(1), complete: false });
  await key('Enter');
  expect(await focused()).toMatch(/: Add an entry/);
  // An entry taken back is not the answer that there was none.
  expect(await doses()).toBeUndefined();
});

test('nothing in a whole journey makes the browser complain', () => {
  expect(bench.complaints).toEqual([]);
});
