import assert from 'node:assert/strict';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { eventually, k_page, type OpenedPage, scene } from './opened_page';
import { pageTest, pageTests } from './page_tests';

const addCan = (page: Page): Promise<void> => page.locator('.tools').getByRole('button', { name: 'Can', exact: true }).click();

const cans = (page: Page, count: number): Promise<void> =>
  eventually(async () => assert.equal(await page.locator('[data-kind=can]').count(), count));

/** The names of the jobs that are kept beside the open one. */
const others = (page: Page): Promise<string[]> => page.locator('.kept strong').allTextContents();

async function makeRoom(opened: OpenedPage, name: string): Promise<void> {
  await opened.openMenu();
  await opened.press(opened.page.getByText('New room', { exact: true }));
  await opened.field('Name').fill(name);
  await opened.press(opened.button('Make this room, with four cans'));
  await opened.page.locator('.panel').waitFor({ state: 'detached' });
  await opened.lit();
}

/** Another window of the same browser. */
async function otherWindow(opened: OpenedPage): Promise<Page> {
  const page = await opened.context.newPage();
  await page.goto(pathToFileURL(k_page).href);
  await page.locator('.facts').waitFor();
  return page;
}

pageTests('rooms that were made one after another are all kept, and each opens again or is removed', async (opened) => {
  for (const name of ['Den', 'Study', 'Porch']) await makeRoom(opened, name);
  await opened.openMenu();
  await eventually(async () => assert.deepEqual(await others(opened.page), ['Study', 'Den']));
  await opened.press(opened.button('Remove Study'));
  await opened.press(opened.button('Yes, remove Study for good'));
  assert.deepEqual(await others(opened.page), ['Den']);
  assert.deepEqual(await opened.barriers(), []);
  await opened.press(opened.page.locator('.kept').getByRole('button', { name: /^Den/ }));
  await eventually(async () => assert.equal(await opened.heading(), 'Den'));
  await opened.page.reload();
  await eventually(async () => assert.equal(await opened.heading(), 'Den'));
  await opened.lit();
  await opened.openMenu();
  await eventually(async () => assert.deepEqual(await others(opened.page), ['Porch']));
});

pageTest('a demo that nobody changed is not among the jobs, one that was changed is', 'desktop', async (opened) => {
  await opened.openDemo('metric-kitchen');
  await opened.openDemo('hallway');
  await addCan(opened.page);
  await opened.changed((text) => text !== scene('hallway'));
  await opened.press(opened.button(/^Close: Can/));
  await opened.openDemo('family-room');
  await opened.openMenu();
  await eventually(async () => assert.deepEqual(await others(opened.page), ['hallway']));
});

pageTest('a job that is changed in two windows is kept twice, and the later one says so', 'desktop', async (opened) => {
  await makeRoom(opened, 'Den');
  await eventually(async () => assert.ok(await opened.kept()));
  const other = await otherWindow(opened);
  await cans(other, 4);
  await addCan(opened.page);
  await cans(opened.page, 5);
  await opened.lit();
  const first = await opened.changed((text) => text.split('[[cans]]').length === 6);
  for (const count of [5, 6]) {
    await addCan(other);
    await cans(other, count);
  }
  await other.getByText('This job was changed in another window too.').waitFor();
  assert.equal(await opened.text(), first);
  await other.reload();
  await cans(other, 6);
  await opened.page.reload();
  await opened.page.locator('.facts').waitFor();
  await opened.lit();
  await cans(opened.page, 5);
  await opened.openMenu();
  await eventually(async () => assert.deepEqual(await others(opened.page), ['Den']));
  await other.close();
});

pageTest('a job that another window only opened is no other job', 'desktop', async (opened) => {
  await makeRoom(opened, 'Den');
  await eventually(async () => assert.ok(await opened.kept()));
  const other = await otherWindow(opened);
  await cans(other, 4);
  await addCan(opened.page);
  await opened.changed((text) => text.split('[[cans]]').length === 6);
  assert.equal(await opened.page.getByText('This job was changed in another window too.').count(), 0);
  await other.close();
});
