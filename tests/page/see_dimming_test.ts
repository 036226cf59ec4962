import assert from 'node:assert/strict';
import { eventually, middleOf } from './opened_page';
import { pageTest } from './page_tests';

pageTest('a finger that scrolls over a dimmer leaves it, one that goes sideways sets it', 'phone', async (opened) => {
  await opened.show('See');
  const dimmer = opened.page.locator('.dimmer', { has: opened.page.locator('input[type=range]') }).last();
  await dimmer.waitFor();
  const words = dimmer.locator('output');
  const { x, y } = await middleOf(dimmer.locator('input'));
  await opened.drag({ x: x - 60, y }, { x: x - 5, y: y + 3 });
  await eventually(async () => assert.match(await words.innerText(), /^setting (4[5-9]|50) %/));
  const set = await words.innerText();
  const top = () => opened.page.locator('main').evaluate((main) => main.scrollTop);
  const topBefore = await top();
  await opened.drag({ x: x + 60, y }, { x: x + 63, y: y - 160 });
  await eventually(async () => assert.notEqual(await top(), topBefore));
  assert.equal(await words.innerText(), set);
});
