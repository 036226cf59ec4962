import type { Point } from '../engine/results';

/** From one place on the plan to another. */
export type Line = readonly [Point, Point];

/** Of a place from the nearest point of a line. */
export function distance_m([x, y]: Point, [[ax, ay], [bx, by]]: Line): number {
  const [along, up] = [bx - ax, by - ay];
  const share = ((x - ax) * along + (y - ay) * up) / (along ** 2 + up ** 2 || 1);
  const nearest = Math.min(Math.max(share, 0), 1);
  return Math.hypot(x - ax - nearest * along, y - ay - nearest * up);
}
