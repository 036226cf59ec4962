import assert from 'node:assert/strict';
import { eventually, type OpenedPage } from './opened_page';
import { pageTest, pageTests } from './page_tests';

/** Chooses these numbers of cans and no others. */
async function chooseCounts(opened: OpenedPage, counts: readonly number[]): Promise<void> {
  const chips = opened.page.getByRole('group', { name: 'Numbers of cans' }).getByRole('button', { name: /^(✓ )?\d+$/ });
  for (const chip of await chips.all()) {
    const isChosen = (await chip.getAttribute('aria-pressed')) === 'true';
    const isWanted = counts.includes(Number((await chip.innerText()).replace('✓', '')));
    if (isChosen !== isWanted) await opened.press(chip);
  }
}

const cards = (opened: OpenedPage) => opened.page.locator('.choose .card');

/** The job's own engine at rest: all maps are drawn. */
const rested = (opened: OpenedPage, start: string): Promise<void> => opened.button(start).waitFor();

pageTests('layouts of several numbers of cans are compared, and one becomes the job', async (opened) => {
  await opened.openDemo('family-room');
  const before = await opened.text();
  await opened.show('Choose');
  await chooseCounts(opened, [4, 6, 8]);
  await opened.press(opened.button('Compare'));
  await cards(opened).first().waitFor();
  await rested(opened, 'Compare');
  const uses = opened.page.getByRole('button', { name: /^Use this: / });
  const labels = await uses.evaluateAll((all) => all.map((use) => use.getAttribute('aria-label') ?? ''));
  for (const count of [4, 6, 8]) assert.ok(labels.some((label) => label.endsWith(`, ${count} cans`)), `no layout of ${count}`);
  await eventually(async () => assert.equal(await opened.page.locator('.small-plan image').count(), await cards(opened).count()));
  const six = cards(opened).filter({ has: opened.page.getByRole('button', { name: /^Use this: .*, 6 cans$/ }) }).first();
  const average = /([\d.]+) fc/.exec((await six.locator('.figures').innerText()).replace(/[^]*Average/, ''))?.[1];
  assert.deepEqual(await opened.barriers(), []);
  await opened.press(six.getByRole('button'));
  await opened.changed((text) => text !== before);
  await eventually(async () => assert.equal(await opened.cans().count(), 6));
  await opened.lit();
  // The plan tells the figure that the card promised, both in three digits.
  assert.equal(/([\d.]+) fc/.exec(await opened.page.locator('.facts dd').first().innerText())?.[1], average);
  // What the job had is called so, and the layout that it has now is not offered once more.
  await opened.show('Choose');
  assert.equal(await cards(opened).filter({ hasText: 'In the job now' }).locator('h3').count(), 1);
  assert.match(await cards(opened).filter({ hasText: 'In the job now' }).locator('h3').innerText(), /^6 cans: /i);
  await opened.button('Use this: as it was, 8 cans').waitFor();
  assert.equal(await opened.page.getByText('as in the job').count(), 0);
  await opened.press(opened.button('Undo'));
  await opened.changed((text) => text === before);
  assert.match(await cards(opened).filter({ hasText: 'In the job now' }).locator('h3').innerText(), /^8 cans: as in the job$/i);
  await opened.show('Plan');
  assert.equal(await opened.cans().count(), 8);
});

pageTest('a layout whose holes hit something is not praised alone', 'desktop', async (opened) => {
  await opened.openDemo('family-room');
  await opened.show('Choose');
  await chooseCounts(opened, [8]);
  await opened.press(opened.button('Compare'));
  await cards(opened).first().waitFor();
  await rested(opened, 'Compare');
  const marks = await cards(opened).evaluateAll((all) =>
    all.map((card) => ({
      mark: card.querySelector('.mark')?.textContent ?? '',
      misfits: Number(/Holes that hit something(\d+)/.exec(card.querySelector('.figures')?.textContent ?? '')?.[1] ?? 0),
    })),
  );
  const praised = marks.filter(({ mark }) => mark !== '');
  assert.ok(praised.some(({ misfits }) => misfits > 1) && praised.some(({ misfits }) => misfits === 0));
  for (const { mark, misfits } of praised) {
    assert.equal(/(\d+) holes have to move/.exec(mark)?.[1] ?? '0', String(misfits));
  }
});

pageTests('a layout of a number of cans that nobody asked for tells which rule of thumb it is by', async (opened) => {
  await opened.openDemo('family-room');
  await opened.show('Choose');
  await chooseCounts(opened, [6]);
  await opened.press(opened.button('Compare'));
  await cards(opened).first().waitFor();
  await rested(opened, 'Compare');
  const unasked = cards(opened).filter({ has: opened.page.getByRole('button', { name: /^Use this: .*, (?!6 )\d+ cans$/ }) });
  const texts = await unasked.allInnerTexts();
  // The ceiling of the room is 8 ft: half of it is 4 ft.
  assert.ok(texts.some((text) => text.includes(`No farther apart than half the ceiling's height, 4' 0".`)), texts.join());
  for (const text of texts) assert.match(text, /Here by rule of thumb/);
  const asked = cards(opened).filter({ has: opened.page.getByRole('button', { name: /, 6 cans$/ }) });
  assert.ok((await asked.count()) > 0);
  // Those that were asked for come first, the others under a heading of their own.
  const counts = await opened.page.locator('.others h3').allInnerTexts();
  assert.equal(counts.length, texts.length);
  for (const title of counts) assert.doesNotMatch(title, /^6 cans/);
  for (const text of await asked.allInnerTexts()) assert.doesNotMatch(text, /rule of thumb/);
});

pageTests('a search can be stopped and begun again', async (opened) => {
  await opened.openDemo('family-room');
  const before = await opened.text();
  await opened.show('Choose');
  await opened.press(opened.button('Best places'));
  await chooseCounts(opened, [6, 8, 9]);
  await opened.press(opened.button('Find the best places'));
  await opened.press(opened.button('Stop'));
  await opened.button('Find the best places').waitFor();
  await opened.page.getByText('Stopped before it was done. Not looked at: 6 and 8 and 9 cans.').waitFor();
  assert.equal(await opened.text(), before);
  await chooseCounts(opened, [4]);
  await opened.press(opened.button('Find the best places'));
  await cards(opened).first().waitFor();
  await rested(opened, 'Find the best places');
  assert.match(await opened.page.locator('.choose .summary').innerText(), /The cheapest that will do|No layout in rows/);
});

pageTests('the job as it was opened stands beside the job as it is now', async (opened) => {
  await opened.openDemo('metric-kitchen');
  const before = await opened.text();
  await opened.show('Choose');
  await opened.press(opened.button('Before, after'));
  assert.equal(await opened.button('Compare both').isDisabled(), true);
  await opened.show('Plan');
  await opened.press(opened.page.locator('.tools').getByRole('button', { name: 'Can', exact: true }));
  await opened.changed((text) => text !== before);
  await opened.press(opened.button('Close: Can 5'));
  await opened.show('Choose');
  await opened.press(opened.button('Compare both'));
  await rested(opened, 'Compare both');
  await eventually(async () =>
    assert.deepEqual(await cards(opened).locator('h3').allTextContents(), ['As the job was opened', 'As it is now']),
  );
  assert.deepEqual(
    (await cards(opened).locator('.figures').allInnerTexts()).map((text) => /Cans\s+(\d+)/.exec(text)?.[1]),
    ['4', '5'],
  );
});

pageTest('what is before can be noted, and is kept with the job', 'desktop', async (opened) => {
  await opened.openDemo('metric-kitchen');
  const before = await opened.text();
  const addCan = async (): Promise<void> => {
    const text = await opened.text();
    await opened.press(opened.page.locator('.tools').getByRole('button', { name: 'Can', exact: true }));
    await opened.changed((now) => now !== text);
    await opened.press(opened.button(/^Close: Can/));
  };
  await addCan();
  await opened.show('Choose');
  await opened.press(opened.button('Before, after'));
  await opened.press(opened.button('Note how it is now'));
  assert.equal(await opened.button('Compare both').isDisabled(), true);
  await opened.show('Plan');
  await addCan();
  await opened.page.reload();
  await opened.page.locator('.facts').waitFor();
  await opened.lit();
  await opened.show('Choose');
  await opened.press(opened.button('Before, after'));
  await opened.press(opened.button('As you noted it'));
  await opened.press(opened.button('Compare both'));
  await rested(opened, 'Compare both');
  await eventually(async () =>
    assert.deepEqual(await cards(opened).locator('h3').allTextContents(), ['As you noted it', 'As it is now']),
  );
  const counts = (await cards(opened).locator('.figures').allInnerTexts()).map((text) => /Cans\s+(\d+)/.exec(text)?.[1]);
  assert.deepEqual(counts, ['5', '6']);
  assert.notEqual(await opened.text(), before);
});

pageTest('an engine that gave its memory back runs again', 'phone', async (opened) => {
  await opened.show('Choose');
  for (const counts of [[4], [6]]) {
    await chooseCounts(opened, counts);
    await opened.press(opened.button('Compare'));
    await cards(opened).filter({ hasText: `${counts[0]} cans: ` }).first().waitFor();
    await rested(opened, 'Compare');
    await opened.page.waitForTimeout(3000); // it rests after two seconds
  }
});
