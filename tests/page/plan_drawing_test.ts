import assert from 'node:assert/strict';
import { k_demos } from './opened_page';
import { pageTest, pageTests } from './page_tests';

/** Pairs of a label and what it is written over: a can's trim or another label, as the browser lays them out. */
function overlaps(drawing: Element): readonly string[] {
  const all = [...drawing.querySelectorAll('text:not(.number)')];
  const isOver = (a: DOMRect, b: DOMRect): boolean =>
    a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
  const isOverTrim = (a: DOMRect, { x, y, width }: DOMRect): boolean => {
    const [middle_x, middle_y] = [x + width / 2, y + width / 2];
    const dx = Math.max(a.left - middle_x, 0, middle_x - a.right);
    const dy = Math.max(a.top - middle_y, 0, middle_y - a.bottom);
    return Math.hypot(dx, dy) < width / 2;
  };
  const trims = [...drawing.querySelectorAll('.trim')];
  return all.flatMap((label, i) => {
    const box = label.getBoundingClientRect();
    const labels = all.slice(i + 1).filter((other) => isOver(box, other.getBoundingClientRect()));
    const cans = trims.filter((trim) => isOverTrim(box, trim.getBoundingClientRect()));
    return [...labels, ...cans.map((trim) => trim.parentElement ?? trim)].map(
      (other) => `${label.textContent} over ${other.textContent}`,
    );
  });
}

pageTests('no label on the plan is over a can or another label, and none is there twice', async (opened) => {
  const drawing = opened.page.locator('.plan-drawing');
  for (const name of k_demos) {
    await opened.openDemo(name);
    assert.ok((await drawing.locator('text').count()) > 0);
    assert.deepEqual(await drawing.evaluate(overlaps), [], name);
    await opened.press(opened.button('Add …')); // on a phone the plan is smaller beside a panel
    await opened.button('Close: Add').waitFor();
    assert.deepEqual(await drawing.evaluate(overlaps), [], `${name}, smaller`);
    const names = await drawing.locator('.name').allTextContents();
    assert.equal(new Set(names).size, names.length, `${name}: ${names.join(', ')}`);
    await opened.press(opened.button('Close: Add'));
  }
});

pageTests('a can that does not fit has an exclamation mark', async (opened) => {
  await opened.openDemo('keeping-room');
  assert.equal(await opened.page.locator('.letter', { hasText: '!' }).count(), await opened.page.locator('.misfit').count());
});

pageTest('the plan stays in sight beside a long list of what is in the room', 'desktop', async (opened) => {
  await opened.openDemo('open-kitchen');
  const drawing = opened.page.locator('.plan-drawing');
  const before = await drawing.boundingBox();
  await opened.press(opened.page.getByText('All that is in the room'));
  assert.deepEqual(await drawing.boundingBox(), before);
  await opened.page.locator('.contents button').last().scrollIntoViewIfNeeded();
  assert.deepEqual(await drawing.boundingBox(), before);
});

pageTests('fields beside each other are in line, however long their labels', async (opened) => {
  await opened.press(opened.page.getByText('All that is in the room'));
  await opened.press(opened.page.locator('.contents').getByRole('button', { name: 'Furniture: sofa' }));
  const top = async (label: string) => (await opened.field(label).boundingBox())?.y;
  assert.equal(await top('Depth, south to north'), await top('Underside above the floor'));
});
