import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type Eye, eyeOf, pictureOf, stepOf, turned, widened } from '../../src/page/views/see_eye';
import { modelOf, type RoomModel } from '../../src/page/views/see_model';
import type { Line } from '../../src/page/parts/line';
import { linesAt, wallAhead, walked } from '../../src/page/views/see_walk';
import { glb, k_description } from './small_model';

const k_rounding_m = 1e-6; // single precision of coordinates of some metres

const k_east: Eye = { place_m: [1, 2, 1.6], toward_deg: 0, tilt_deg: 0, width_deg: 80 };
const k_room: readonly Line[] = [
  [
    [0, 0],
    [4, 0],
  ],
  [
    [4, 0],
    [4, 3],
  ],
  [
    [4, 3],
    [0, 3],
  ],
  [
    [0, 3],
    [0, 0],
  ],
];

/** Where a point comes to lie in the picture: right, up, and how far ahead it is. */
function seenAt(eye: Eye, aspect: number, point: readonly [number, number, number]): readonly [number, number, number] {
  const picture = pictureOf(eye, aspect);
  const row = (i: number): number =>
    [...point, 1].reduce((sum, each, column) => sum + each * (picture[4 * column + i] ?? 0), 0);
  return [row(0) / row(3), row(1) / row(3), row(3)];
}

test('what an eye looks at is in the middle, and the sides are as far apart as its angle of view', () => {
  const [x, y, ahead_m] = seenAt(k_east, 1.5, [3, 2, 1.6]);
  assert.ok(Math.hypot(x, y) < k_rounding_m);
  assert.ok(Math.abs(ahead_m - 2) < k_rounding_m);
  const side_m = 2 * Math.tan((40 * Math.PI) / 180);
  assert.ok(Math.abs(seenAt(k_east, 1.5, [3, 2 - side_m, 1.6])[0] - 1) < k_rounding_m, 'south is right of east');
  assert.ok(Math.abs(seenAt(k_east, 1.5, [3, 2, 1.6 + side_m / 1.5])[1] - 1) < k_rounding_m, 'up is up');
});

test('a view of the job looks where it says', () => {
  const eye = eyeOf({ name: 'door', eye_m: [1, 2, 1.6], toward: [0.6, 0.64, -0.48], width_deg: 70 });
  const [x, y] = seenAt(eye, 1.5, [1.6, 2.64, 1.12]);
  assert.ok(Math.hypot(x, y) < k_rounding_m);
});

test('an eye turns round and round, but not over', () => {
  let eye = k_east;
  for (let i = 0; i < 100; ++i) eye = turned(eye, 37, 11);
  assert.ok(eye.toward_deg >= -180 && eye.toward_deg < 180);
  assert.ok(Math.abs(((100 * 37 - eye.toward_deg) / 360) % 1) < k_rounding_m);
  assert.ok(eye.tilt_deg < 90);
  assert.ok(widened(k_east, 100).width_deg < 180);
  assert.ok(widened(k_east, 0.001).width_deg > 10);
});

test('ahead and aside are square to each other, right of ahead', () => {
  for (const toward_deg of [0, 30, 90, 200]) {
    const [ax, ay] = stepOf({ ...k_east, toward_deg }, 1, 0);
    const [bx, by] = stepOf({ ...k_east, toward_deg }, 0, 1);
    assert.ok(Math.abs(ax * by - ay * bx + 1) < k_rounding_m);
    assert.ok(Math.abs(Math.atan2(ay, ax) - Math.atan2(Math.sin((toward_deg * Math.PI) / 180), ax)) < k_rounding_m);
  }
});

test('who walks stays in the room, whichever way', () => {
  let at: readonly [number, number] = [2, 1.5];
  for (let i = 0; i < 5000; ++i) {
    const way = i * i; // radians; goes everywhere
    at = walked(at, [0.25 * Math.cos(way), 0.25 * Math.sin(way)], k_room);
    assert.ok(at[0] > 0 && at[0] < 4 && at[1] > 0 && at[1] < 3, `${at}`);
  }
});

test('a wall turns a slanting step into one along it', () => {
  const [x, y] = walked([2, 0.25], [0.2, -0.2], k_room);
  assert.ok(Math.abs(x - 2.2) < k_rounding_m);
  assert.ok(Math.abs(y - 0.25) < k_rounding_m);
});

test('who stands too near to a wall may walk away from it', () => {
  assert.deepEqual(walked([2, 0.1], [0, 0.25], k_room), [2, 0.35]);
  assert.deepEqual(walked([2, 0.1], [0, -0.05], k_room), [2, 0.1]);
});

test('surfaces are cut at the height of the eye, and only where they reach it', () => {
  const model: RoomModel = modelOf(glb(k_description)); // a triangle from the floor to 2 m
  const [line, ...others] = linesAt(model, 1);
  assert.deepEqual(others, []);
  assert.deepEqual(
    [...(line ?? [])].sort(([a], [b]) => a - b),
    [
      [1, 1],
      [2, 1],
    ],
  );
  assert.deepEqual(linesAt(model, 2.5), []);
});

test('the wall ahead is the nearest that the eye looks toward', () => {
  const corners = [
    { x_m: 0, y_m: 0, wall_from_here: 'south' },
    { x_m: 4, y_m: 0, wall_from_here: 'east' },
    { x_m: 4, y_m: 3, wall_from_here: 'north' },
    { x_m: 0, y_m: 3, wall_from_here: 'west' },
  ];
  const toward = (toward_deg: number): string => wallAhead({ ...k_east, toward_deg }, corners);
  assert.deepEqual([0, 90, 180, -90].map(toward), ['east', 'north', 'west', 'south']);
});
