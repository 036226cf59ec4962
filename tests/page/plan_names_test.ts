import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type Named, namePlaces } from '../../src/page/views/plan_names';

const box = (name: string, left: number, top: number, right: number, bottom: number): Named => ({
  name,
  left,
  top,
  right,
  bottom,
});

test('a name stands inside of its thing, at the lower edge', () => {
  const [at] = namePlaces([box('sofa', 0, 0, 100, 60)], []);
  assert.ok(at && at[0] === 50 && at[1] > 45 && at[1] < 60);
});

test('a name gives way to what is taken and to names before it', () => {
  const sofa = box('sofa', 0, 0, 100, 60);
  const taken = { left: 40, right: 60, top: 40, bottom: 60 };
  const [first, second, third] = namePlaces([sofa, sofa, sofa], [taken]);
  assert.ok(first && first[1] < 20);
  assert.ok(second && second[1] === 30);
  assert.equal(third, null);
});

test('a name that its thing has no room for is not written', () => {
  assert.deepEqual(namePlaces([box('a very long name', 0, 0, 60, 60), box('flat', 0, 0, 100, 4)], []), [null, null]);
});
