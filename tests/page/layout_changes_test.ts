import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Can, Layout, Room } from '../../src/page/engine/results';
import { layoutChanges, stayingCans } from '../../src/page/job/layout_changes';

const can = (number: number, type: string, x_m: number, y_m: number, more: Partial<Can> = {}): Can => ({
  number,
  type,
  x_m,
  y_m,
  from: [
    { wall: 'west', text: `${x_m} m`, distance_m: x_m },
    { wall: 'south', text: `${y_m} m`, distance_m: y_m },
  ],
  height_m: 2.4,
  hangs: false,
  level: 1,
  circuit: null,
  aim: null,
  fits: null,
  hits: [],
  ...more,
});

const layout = (...positions: (readonly [number, number])[]): Layout => ({
  name: '',
  type: 'six_inch',
  cans: positions.length,
  average_lx: 1,
  average_error_lx: 0,
  minimum_lx: 1,
  minimum_error_lx: 0,
  uniformity_minimum_over_average: 1,
  power_w: null,
  cost: null,
  misfits: null,
  wants: [],
  gives_all_wanted: true,
  positions: positions.map(([x_m, y_m]) => ({ x_m, y_m })),
});

const cans = [
  can(1, 'six_inch', 1, 1, { circuit: 'general', level: 0.8 }),
  can(2, 'picture_light', 2, 0.3),
  can(3, 'six_inch', 3, 1, { circuit: 'general', level: 0.8 }),
];
const corner = (x_m: number, y_m: number, wall_from_here: string) => ({ x_m, y_m, wall_from_here });
const k_square = [corner(0, 0, 'south'), corner(6, 0, 'east'), corner(6, 6, 'north'), corner(0, 6, 'west')];
/** Of a room nothing counts here but its cans and its corners. */
const roomOf = (all: readonly Can[], corners = k_square): Room => ({ cans: all, room: { corners } }) as unknown as Room;
const room = roomOf(cans);
const own = layout([1, 1], [3, 1]);

test('cans that are laid out move and keep what else is written of them', () => {
  assert.deepEqual(layoutChanges(room, own, layout([1.1, 2], [3.1, 2])), [
    { move: ['cans', 0], to_m: [1.1, 2] },
    { move: ['cans', 2], to_m: [3.1, 2] },
  ]);
});

test('a can more is added like the first, then moved', () => {
  assert.deepEqual(layoutChanges(room, own, layout([1, 1], [3, 1], [2, 2])).slice(2), [
    {
      add: ['cans'],
      value: { type: 'six_inch', from: { west: '1 m', south: '1 m' }, circuit: 'general', level: 0.8 },
    },
    { move: ['cans', 3], to_m: [2, 2] },
  ]);
});

test('cans too many go, the last first, so that the indices of the others hold', () => {
  const three = roomOf([...cans, can(4, 'six_inch', 5, 1)]);
  assert.deepEqual(layoutChanges(three, layout([1, 1], [3, 1], [5, 1]), layout([2, 2])), [
    { move: ['cans', 0], to_m: [2, 2] },
    { remove: ['cans', 3] },
    { remove: ['cans', 2] },
  ]);
});

test('cans in one place are told apart', () => {
  const twins = roomOf([can(1, 'six_inch', 1, 1), can(2, 'six_inch', 1, 1)]);
  assert.deepEqual(layoutChanges(twins, layout([1, 1], [1, 1]), layout([1, 1], [2, 1])), [
    { move: ['cans', 0], to_m: [1, 1] },
    { move: ['cans', 1], to_m: [2, 1] },
  ]);
});

test('cans of another kind stay', () => {
  assert.deepEqual(
    stayingCans(room, own).map(({ number }) => number),
    [2],
  );
});

test('a can that is taped from an inner wall is taped anew from walls with all of the room in front', () => {
  const inner = can(1, 'six_inch', 1, 5, { from: [{ wall: 'nook', text: '1 m', distance_m: 1 }] });
  const k_l = [
    corner(0, 0, 'south'),
    corner(6, 0, 'east'),
    corner(6, 3, 'hall'),
    corner(3, 3, 'nook'),
    corner(3, 6, 'north'),
    corner(0, 6, 'west'),
  ];
  const changes = layoutChanges(roomOf([inner], k_l), layout([1, 5]), layout([5, 1]));
  const expected = [
    { set: ['cans', 0, 'from'], value: { south: '1.0000 m', east: '1.0000 m' } },
    { move: ['cans', 0], to_m: [5, 1] },
  ];
  assert.deepEqual(changes, expected);
  const clockwise = [...k_l].reverse().map((at, i, all) => ({ ...at, wall_from_here: all[(i + 1) % 6]?.wall_from_here ?? '' }));
  assert.deepEqual(layoutChanges(roomOf([inner], clockwise), layout([1, 5]), layout([5, 1]))[0], {
    set: ['cans', 0, 'from'],
    value: { north: '5.0000 m', east: '1.0000 m' },
  });
});
