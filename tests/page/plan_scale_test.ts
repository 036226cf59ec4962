import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Point } from '../../src/page/engine/results';
import { boundsOf, fitted, onDrawing, onPlan, shifted, zoomed } from '../../src/page/views/plan_scale';

const k_room = boundsOf([
  { x_m: -1, y_m: 2 },
  { x_m: 5, y_m: 2 },
  { x_m: 5, y_m: 5 },
]);
const k_rounding_px = 1e-9; // of doubles, some hundred pixels in size

function assertNear(a: Point, b: Point): void {
  assert.ok(Math.hypot(a[0] - b[0], a[1] - b[1]) < k_rounding_px, `${a} is not ${b}`);
}

test('a room is fitted between the margins, in the middle, north up', () => {
  const scale = fitted(k_room, 360, 400, 30);
  assertNear(onDrawing(scale, [-1, 3.5]), [30, 200]);
  assertNear(onDrawing(scale, [5, 3.5]), [330, 200]);
  assertNear(onDrawing(scale, [2, 5]), [180, 125]);
});

test('a place on the drawing is the place on the plan that is drawn there', () => {
  const scale = shifted(zoomed(fitted(k_room, 360, 400, 30), 2.5, [100, 90]), [-17, 4]);
  for (const place of [[0, 0], [3.25, 4.5], [-2, 9]] as const) assertNear(onPlan(scale, onDrawing(scale, place)), place);
});

test('zooming leaves the point under the finger where it is', () => {
  const scale = fitted(k_room, 360, 400, 30);
  assertNear(onDrawing(zoomed(scale, 3, [120, 210]), onPlan(scale, [120, 210])), [120, 210]);
});
