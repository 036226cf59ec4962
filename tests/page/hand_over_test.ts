import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Download, Locator } from 'playwright-core';
import { rowsOfCommas } from '../../src/page/parts/comma_table';
import { eventually, evenlit, type OpenedPage, scene } from './opened_page';
import { k_folder, pageTest, pageTests, written } from './page_tests';

/** What the page gives to save when something is pressed. */
async function saved(opened: OpenedPage, button: Locator): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([opened.page.waitForEvent('download'), opened.press(button)]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

/** All files that the page gives to save, one after another, when something is pressed. */
async function allSaved(opened: OpenedPage, button: Locator, count: number): Promise<ReadonlyMap<string, Buffer>> {
  const downloads: Download[] = [];
  opened.page.on('download', (download) => downloads.push(download));
  await opened.press(button);
  await eventually(() => assert.equal(downloads.length, count));
  const read = downloads.map(async (each) => [each.suggestedFilename(), readFileSync(await each.path())] as const);
  return new Map(await Promise.all(read));
}

const textShown = (opened: OpenedPage): Promise<string> => opened.field('The job as text').inputValue();

/** Opens a sheet of the engine and waits until it is shown. */
async function openSheet(opened: OpenedPage, name: RegExp): Promise<void> {
  await opened.show('Hand over');
  await opened.press(opened.button(name));
  await opened.button('All sheets').waitFor();
}

/** What the page prints, as text. */
async function printed(opened: OpenedPage): Promise<string> {
  const file = join(k_folder, 'printed.pdf');
  writeFileSync(file, await opened.page.pdf({ format: 'Letter' }));
  return execFileSync('pdftotext', ['-raw', file, '-'], { encoding: 'utf8' });
}

/** The beam of the project's own can with more light than its lamps are rated for. */
const oddBeam = (): string => readFileSync('photometry/six-inch-medium.ies', 'utf8').replace(/^1 -1 1 37/m, '1 500 1 37');

pageTests('a job that is saved and opened again is the same byte for byte', async (opened) => {
  await opened.show('Hand over');
  const file = await saved(opened, opened.button(/^Save job file/));
  assert.equal(file.name, 'living-room.toml');
  assert.equal(file.bytes.toString(), scene('living-room'));
  // Line ends of Windows, a byte order mark and letters of other languages are nobody's to change.
  const text = `\ufeff${scene('metric-kitchen').replace('"Kitchen"', '"Küche, 台所"').replaceAll('\n', '\r\n')}`;
  await opened.openFiles({ name: 'küche.toml', bytes: text });
  await opened.changed((now) => now === text);
  assert.equal(await opened.heading(), 'Küche, 台所');
  const again = await saved(opened, opened.button(/^Save job file/));
  assert.equal(again.name, 'küche.toml');
  assert.equal(again.bytes.toString(), text);
});

pageTests('a photometric file that is dropped tells what is odd in it and becomes a type of can', async (opened) => {
  await opened.openDemo('metric-kitchen');
  await opened.drop({ name: 'odd beam #1.ies', bytes: oddBeam() });
  const card = opened.page.locator('.card', { hasText: 'odd beam #1.ies' });
  await card.locator('.lacks', { hasText: 'more than the rated 500.0 lm' }).waitFor();
  assert.match(await card.innerText(), /900 lm, 11\.0 W, beam 60\.0°/);
  await card.getByLabel('Name of the type of can').fill('odd');
  await opened.press(card.getByRole('button', { name: 'Add this type of can' }));
  const text = await opened.changed((now) => now.includes('odd beam #1.ies'));
  assert.equal(text.replace(/\n*\[can_types\.odd\]\n.*\n/, '\n'), scene('metric-kitchen'));
  await card.waitFor({ state: 'detached' });
  await opened.show('Hand over');
  const files = await allSaved(opened, opened.button('Save job and its file'), 2);
  assert.deepEqual([...files.keys()], ['metric-kitchen.toml', 'odd beam #1.ies']);
  assert.equal(files.get('metric-kitchen.toml')?.toString(), text);
  assert.equal(files.get('odd beam #1.ies')?.toString(), oddBeam());
  await opened.page.getByText('metric-kitchen.toml, odd beam #1.ies.').waitFor();
  // All that was saved opens again as one job.
  await opened.openDemo('hallway');
  await opened.openFiles(...[...files].map(([name, bytes]) => ({ name, bytes })));
  await opened.changed((now) => now === text);
  assert.equal(await opened.page.locator('.engine-says', { hasText: /\S/ }).count(), 0);
});

pageTest('the set-out sheet is printed without the page around it', 'desktop', async (opened) => {
  await opened.openDemo('family-room');
  await openSheet(opened, /^Set-out sheet/);
  const paper = (await printed(opened)).replace(/\s+/g, ' ');
  const sheet = evenlit('setout', 'scenes/family-room.toml');
  for (const line of ['Family room: set-out sheet', 'Before you mark', 'Centres of the cans', 'Lines to snap']) {
    assert.ok(paper.includes(line), `${line} is not printed`);
  }
  const distances = new Set(sheet.match(/\d+' [\d/-]+" \([\d/-]+"\)/g));
  assert.ok(distances.size >= 10);
  for (const distance of distances) assert.ok(paper.includes(distance), `${distance} is not printed:\n${paper}`);
  for (const control of ['All sheets', 'Hand over', 'Choose', 'Print', 'Undo']) {
    assert.ok(!paper.includes(control), `${control} is printed`);
  }
});

pageTest('the set-out sheet can be read on a phone', 'phone', async (opened) => {
  await opened.openDemo('family-room');
  await openSheet(opened, /^Set-out sheet/);
  await opened.page.getByText('Centres of the cans').waitFor();
  const overhang = await opened.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(overhang <= 0, `the page is ${overhang} px too wide`);
});

pageTests('the shopping list is the one of the command line', async (opened) => {
  await openSheet(opened, /^Shopping list/);
  const list = written('wiring', 'scenes/living-room.toml', '--csv', 'list.csv').toString();
  const [head = [], ...rows] = rowsOfCommas(list).map(([, ...cells]) => cells);
  assert.ok(rows.length > 5);
  const table = opened.page.locator('table');
  assert.deepEqual(await table.locator('thead th').allTextContents(), head);
  assert.deepEqual(
    await table.locator('tbody tr').evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent))),
    rows,
  );
  assert.match(await opened.page.locator('.caution').innerText(), /Licensed practice and the local code come first/);
  const file = await saved(opened, opened.button('Save'));
  assert.equal(file.name, 'living-room-shopping-list.csv');
});

pageTest('a sheet of a job that has changed since says so and is made again', 'desktop', async (opened) => {
  await opened.openDemo('metric-kitchen');
  await openSheet(opened, /^Set-out sheet/);
  await opened.show('Plan');
  await opened.press(opened.page.locator('.tools').getByRole('button', { name: 'Can', exact: true }));
  await opened.changed((text) => text !== scene('metric-kitchen'));
  await opened.show('Hand over');
  await opened.press(opened.button('Make it again: Set-out sheet'));
  await opened.page.getByText('The job has changed since').waitFor({ state: 'detached' });
});

for (const [name, about] of [
  [/^Handout/, 'a handout'],
  [/^Wiring plan/, 'a wiring plan'],
  [/^Map of light/, 'a map of light'],
  [/^The room as it will look/, 'a picture of the room'],
] as const) {
  pageTest(`${about} is made in the page`, 'phone', async (opened) => {
    await openSheet(opened, name);
    const picture = opened.page.locator('.sheet-picture');
    if ((await picture.count()) === 0) return;
    await eventually(async () =>
      assert.ok(await picture.evaluate((image) => image instanceof HTMLImageElement && image.naturalWidth > 100)),
    );
  });
}

pageTest('sheets of the cables say that they need a switch', 'phone', async (opened) => {
  await opened.openDemo('metric-kitchen'); // which has no wiring
  await opened.show('Hand over');
  for (const name of [/^Shopping list/, /^Wiring plan/]) {
    assert.match(await opened.button(name).innerText(), /There is no switch in this room yet/);
    assert.equal(await opened.button(name).isDisabled(), true);
  }
  assert.equal(await opened.button(/^Set-out sheet/).isDisabled(), false);
});

pageTest('what is wrong with a job is said in words, its lines are folded away', 'phone', async (opened) => {
  await opened.openFiles({ name: 'odd.toml', bytes: scene('metric-kitchen').replace(/^ceiling = .*$/m, 'ceiling = "2 mm"') });
  const said = opened.page.locator('.engine-says', { hasText: /odd\.toml is not opened/ });
  await said.waitFor();
  await said.locator('pre').waitFor({ state: 'hidden' });
  assert.doesNotMatch(await said.innerText(), /job\.toml|\^~|hint:/);
  await opened.press(said.getByText('Where it stands in the job’s text'));
  assert.match(await said.locator('pre').innerText(), /ceiling = "2 mm"/);
});

pageTests('what the browser keeps is there after a reload, with the steps to undo', async (opened) => {
  await opened.openDemo('metric-kitchen');
  const before = await opened.text();
  await opened.press(opened.page.locator('.tools').getByRole('button', { name: 'Can', exact: true }));
  const after = await opened.changed((text) => text !== before);
  await opened.page.reload();
  await opened.page.locator('.facts').waitFor();
  await opened.lit();
  assert.equal(await opened.text(), after);
  assert.equal(await opened.cans().count(), 5);
  await opened.press(opened.button('Undo'));
  await opened.changed((text) => text === before);
  assert.equal(await opened.cans().count(), 4);
});

pageTests('everything that is kept can be forgotten', async (opened) => {
  await opened.openDemo('metric-kitchen');
  await opened.openMenu();
  await opened.press(opened.button('Dark'));
  await opened.press(opened.button('Forget everything kept here'));
  await opened.press(opened.button('Yes, forget it all'));
  await opened.page.getByText('Forgotten.').waitFor();
  assert.equal(await opened.kept(), null);
  assert.equal(await opened.page.evaluate(() => localStorage.length), 0);
  await opened.page.reload();
  await opened.page.locator('.facts').waitFor();
  assert.equal(await opened.heading(), 'Living room');
});

pageTest('the text that is shown is the job', 'desktop', async (opened) => {
  await opened.show('Hand over');
  assert.equal(await textShown(opened), scene('living-room'));
});
