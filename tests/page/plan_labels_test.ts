import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Point } from '../../src/page/engine/results';
import { type Box, labelBeside, labelPlaces, type Named, nameLabels, squareAround } from '../../src/page/views/plan_labels';

const named = (key: string, name: string, left: number, top: number, right: number, bottom: number): Named => ({
  key,
  name,
  box: { left, top, right, bottom },
});

const places = (things: readonly Named[], taken: readonly Box[] = []): ReadonlyMap<string, Point> =>
  labelPlaces(nameLabels(things), taken);

test('a name stands inside of its thing, at the lower edge', () => {
  const at = places([named('a', 'sofa', 0, 0, 100, 60)]).get('a');
  assert.ok(at && at[0] === 50 && at[1] > 45 && at[1] < 60);
});

test('a name gives way to what is taken and to names before it', () => {
  const things = ['one', 'two', 'six'].map((name) => named(name, name, 0, 0, 100, 60));
  const found = places(things, [{ left: 40, right: 60, top: 40, bottom: 60 }]);
  assert.ok((found.get('one')?.[1] ?? 60) < 20);
  assert.equal(found.get('two')?.[1], 30);
  assert.equal(found.get('six'), undefined);
});

test('a name that its thing has no room for is not written', () => {
  const things = [named('a', 'a very long name', 0, 0, 60, 60), named('b', 'flat', 0, 0, 100, 4)];
  assert.equal(places(things).size, 0);
});

test('one thing that is written twice, as furniture and as a task area, has its name once', () => {
  const table = named('obstruction 1', 'table', 0, 0, 100, 60);
  const found = places([table, { ...table, key: 'task_area 1' }, named('obstruction 2', 'table', 200, 0, 300, 60)]);
  assert.deepEqual([...found.keys()], ['obstruction 1', 'obstruction 2']);
});

test('a label beside a round mark is at its upper right, and elsewhere where another mark is there', () => {
  const label = labelBeside({ key: 'can 1', text: 'c', size_px: 13 }, [0, 0], 10, 'corner');
  const [x, y] = labelPlaces([label], []).get('can 1') ?? [0, 0];
  assert.ok(x > 10 && y < 0);
  const neighbour = squareAround([30, 0], 15);
  const [left, up] = labelPlaces([label], [neighbour]).get('can 1') ?? [0, 0];
  assert.ok(left < -10 && up < 0);
  assert.equal(labelPlaces([label], [squareAround([0, 0], 60)]).size, 0);
});

test('a label keeps off what it shuns where another of its places is free, and stands over it where none is', () => {
  const label = { key: 'reading', text: '20 fc', size_px: 14, places: [[0, -20], [0, 20]] as const };
  const above: Box = { left: -40, right: 40, top: -40, bottom: 0 };
  assert.deepEqual(labelPlaces([{ ...label, shuns: [above] }], []).get('reading'), [0, 20]);
  assert.deepEqual(labelPlaces([{ ...label, shuns: [{ ...above, bottom: 40 }] }], []).get('reading'), [0, -20]);
});
